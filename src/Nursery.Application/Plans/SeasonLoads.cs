using Nursery.Planning;
using Nursery.Planning.Plans;
using Nursery.Planning.Problems;

namespace Nursery.Application.Plans;

/// <summary>Spaces taken of one kind of place.</summary>
/// <param name="Kind">Heat, Warm, Cool or Hardening.</param>
/// <param name="Capacity">Tray spaces there are.</param>
/// <param name="Weeks">On the fullest day of each week of the season, trays that stand already counted.</param>
public sealed record PlaceLoad(PlaceKind Kind, int Capacity, IReadOnlyList<int> Weeks);

/// <summary>How full heat, warm and cool benches and hardening are, week by week.</summary>
internal static class SeasonLoads
{
    private static readonly BenchUse[] Kinds = [BenchUse.Heat, BenchUse.Warm, BenchUse.Cool, BenchUse.Hardening];

    public static IReadOnlyList<PlaceLoad> Of(Problem problem, Plan plan)
    {
        var days = Kinds.ToDictionary(kind => kind, _ => new int[problem.Days]);
        var uses = problem.Benches.ToDictionary(bench => bench.Id, bench => bench.Use);
        foreach (var stay in problem.Frozen ?? [])
        {
            Add(stay.Where == FrozenWhere.Hardening ? BenchUse.Hardening : uses.GetValueOrDefault(stay.Where, BenchUse.Heat), stay.From, stay.To, stay.Spaces);
        }

        foreach (var batch in plan.Batches)
        {
            Add(BenchUse.Heat, batch.SowOn, batch.MoveOffOn, batch.Heat.Sum(stay => stay.Spaces));
            Add(batch.Band, batch.MoveOffOn, batch.SpaceOn, batch.Benches.Sum(stay => stay.Spaces));
            Add(batch.Band, batch.SpaceOn, batch.HardenOn, batch.Benches.Sum(stay => stay.SpacesAfter));
            Add(BenchUse.Hardening, batch.HardenOn, batch.ReadyOn, batch.Benches.Sum(stay => stay.SpacesAfter));
        }

        return [.. Kinds.Select(kind => new PlaceLoad(PlanLines.Kind(kind), Capacity(problem, kind), [.. days[kind].Chunk(7).Select(week => week.Max())]))];

        void Add(BenchUse kind, DateOnly from, DateOnly to, int spaces)
        {
            for (var day = Math.Max(0, problem.DayOf(from)); day < Math.Min(problem.Days, problem.DayOf(to)); day++)
            {
                days[kind][day] += spaces;
            }
        }
    }

    private static int Capacity(Problem problem, BenchUse kind) => kind switch
    {
        BenchUse.Heat => problem.Zones.Sum(zone => zone.Spaces),
        BenchUse.Hardening => problem.HardeningSpaces,
        _ => problem.Benches.Where(bench => bench.Use == kind).Sum(bench => bench.Spaces),
    };
}
