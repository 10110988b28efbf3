using Nursery.Application.Benches;
using Nursery.Domain;

namespace Nursery.Web.Components.Pages.Benches;

/// <summary>Groups what lies on a bench by tray set, holds plan against fact and finds double use.</summary>
public static class TraySetsOfBench
{
    public static IReadOnlyList<TraySetOnBench> Of(HouseBench bench)
    {
        var sets = bench.Trays
            .GroupBy(row => (row.TraySetCode, row.FirstSpace, row.Spaces, row.ReservationId, row.Reserved, row.Standing))
            .Select(group =>
            {
                SpaceRun? run = group.Key.FirstSpace is { } first ? new SpaceRun(first, group.Key.Spaces ?? 1) : null;
                return new TraySetOnBench(bench.Code, run, FactOf(group.First(), run, bench), [.. group]);
            })
            .OrderBy(set => set.Run?.First ?? int.MaxValue).ThenBy(set => set.Fact != PlanAgainstFact.ReservedOnly)
            .ThenBy(set => set.Code, StringComparer.Ordinal).ToList();
        return sets.ConvertAll(set => set with
        {
            SharedWith =
            [
                .. sets.Where(other => other.Code != set.Code && Overlap(other.Run, set.Run))
                    .Select(other => other.Code).Distinct(),
            ],
        });
    }

    /// <summary>Spaces that more than one tray set lies on.</summary>
    public static IReadOnlyList<int> DoubleSpaces(IEnumerable<TraySetOnBench> sets) =>
    [
        .. sets.Where(set => set.Run is not null)
            .SelectMany(set => Spaces(set.Run!.Value).Select(space => (space, set.Code))).Distinct()
            .GroupBy(pair => pair.space).Where(group => group.Count() > 1).Select(group => group.Key).Order(),
    ];

    public static IEnumerable<int> Spaces(SpaceRun run) => Enumerable.Range(run.First, run.Count);

    private static bool Overlap(SpaceRun? one, SpaceRun? other) =>
        one is { } first && other is { } second && first.Overlaps(second);

    private static PlanAgainstFact FactOf(BenchTrays trays, SpaceRun? run, HouseBench bench) =>
        (trays.Reserved, trays.Standing) switch
        {
            (true, true) => PlanAgainstFact.AsPlanned,
            (true, false) => PlanAgainstFact.ReservedOnly,
            _ when bench.Trays.Any(plan => Covers(plan, trays)) => PlanAgainstFact.AsPlanned,
            _ when bench.Zones.Any(zone => Overlap(run, new SpaceRun(zone.FirstSpace, zone.Spaces))) => PlanAgainstFact.StillOnHeat,
            _ => PlanAgainstFact.NotByPlan,
        };

    /// <summary>Fewer trays than reserved, or trays on the bench with no spaces told, are still where the plan wants them.</summary>
    private static bool Covers(BenchTrays plan, BenchTrays fact) =>
        plan.Reserved && plan.TraySetCode == fact.TraySetCode
        && (fact.FirstSpace is not { } first
            || (plan.FirstSpace is { } from && new SpaceRun(from, plan.Spaces!.Value).Contains(new SpaceRun(first, fact.Spaces!.Value))));
}
