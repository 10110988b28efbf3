using System.Diagnostics;
using System.Text.Json;
using Nursery.Planning;
using Nursery.Planning.Changes;
using Nursery.Planning.Plans;
using Nursery.Planning.Tests.Instances;
using Nursery.Planning.Validation;

namespace Nursery.Benchmarks.Plans;

/// <summary>At L the largest batch on heat on day 85 comes up five days late: how long the answer takes and how many batches change.</summary>
internal static class ReplanBenchmark
{
    private const int Day = 85;
    private const int Rounds = 10;

    public static int Run()
    {
        var problem = InventedNursery.Make("L", 1, 0.90);
        var today = Planner.Plan(problem, new Effort(PlanSize.Of("L").Steps)).Plan;
        var day = problem.DateOf(Day);
        var slipping = today.Batches.Where(placed => placed.SowOn < day && placed.MoveOffOn > day).MaxBy(placed => placed.Heat.Sum(stay => stay.Spaces))!;
        SeasonChange[] slip = [new BatchSlips(slipping.Id, 5)];
        var fastest = double.PositiveInfinity;
        Replanned? replanned = null;
        for (var round = 0; round < Rounds; round++)
        {
            var watch = Stopwatch.StartNew();
            replanned = Replan.Around(problem, today, day, slip, new Effort(0));
            fastest = Math.Min(fastest, watch.Elapsed.TotalMilliseconds);
        }

        var searched = Replan.Around(problem, today, day, slip, new Effort(20_000));
        var violations = PlanValidator.Check(replanned!.Planned.Checked.Usable, replanned.Planned.Plan).Count
            + PlanValidator.Check(searched.Planned.Checked.Usable, searched.Planned.Plan).Count;
        var (changed, changedBySearch) = (replanned.Difference.Changed.Count, searched.Difference.Changed.Count);
        var met = fastest <= 100 && changed <= 0.03 * replanned.NotStarted && changedBySearch <= 0.03 * replanned.NotStarted && violations == 0;
        Console.WriteLine(JsonSerializer.Serialize(
            new { ms = Math.Round(fastest, 1), changed, changedBySearch, replanned.NotStarted, homeless = replanned.Homeless.Count, violations, met },
            PlanBenchmark.Json));
        return met ? 0 : 1;
    }
}
