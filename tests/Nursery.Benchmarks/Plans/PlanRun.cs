using System.Diagnostics;
using System.Text.Json.Serialization;
using Nursery.Planning;
using Nursery.Planning.Plans;
using Nursery.Planning.Problems;
using Nursery.Planning.Tests.Instances;
using Nursery.Planning.Validation;

namespace Nursery.Benchmarks.Plans;

/// <summary>One plan measured. Costs are cents.</summary>
internal sealed record PlanRun(
    string Size, int Seed, double Load, long Cost, long PositionedCost, long? Bound, long FirstFit, int Late, int UnplacedTrays, int Violations,
    double Seconds, long PeakMb)
{
    [JsonIgnore]
    public double? ToBound => Bound is { } bound ? (double)Cost / bound : null;

    public static PlanRun Of(PlanArguments asked)
    {
        var size = PlanSize.Of(asked.Size);
        var problem = InventedNursery.Make(asked.Size, asked.Seed, asked.Load);
        var watch = Stopwatch.StartNew();
        var planned = Planner.Plan(problem, asked.Seconds is { } seconds ? Effort.Seconds(seconds) : new Effort(asked.Steps ?? size.Steps));
        var took = watch.Elapsed.TotalSeconds;
        using var process = Process.GetCurrentProcess();
        var peak = process.PeakWorkingSet64 >> 20;
        if (asked.ProblemFile is { } file)
        {
            File.WriteAllText(file, PlanningJson.Write(problem));
        }

        if (asked.PlanFile is { } planFile)
        {
            File.WriteAllText(planFile, PlanningJson.Write(planned.Plan));
        }

        var violations = PlanValidator.Check(problem, planned.Plan);
        foreach (var violation in violations.Take(10))
        {
            Console.Error.WriteLine($"{violation.Constraint} {violation.What}: {violation.Sentence}");
        }

        return new PlanRun(
            asked.Size, asked.Seed, asked.Load, planned.Plan.Score.Cost, planned.Plan.Score.PositionedCost,
            asked.Bound ? BoundRun.Of(problem, size.Whole, 1800) : null,
            PlainFirstFit.Cost(problem), LateBatches(problem, planned.Plan), planned.Plan.Unplaced.Sum(unplaced => unplaced.Trays), violations.Count,
            Math.Round(took, 1), peak);
    }

    private static int LateBatches(Problem problem, Plan plan)
    {
        var last = problem.Batches.ToDictionary(batch => batch.Id, batch => batch.LastOnTime);
        return plan.Batches.Count(placed => placed.ReadyOn > last[placed.Id]);
    }
}
