using Nursery.Planning;
using Nursery.Planning.Plans;
using Nursery.Planning.Problems;

namespace Nursery.Application.Plans;

/// <summary>Where trays stand in a plan.</summary>
public enum PlaceKind
{
    Heat,
    Warm,
    Cool,
    Hardening,
}

/// <summary>A run of spaces of a zone or bench, held from a day to the first day no longer.</summary>
/// <param name="Code">Of the batch.</param>
/// <param name="Stays">It stands there already, or is not the plan's to move.</param>
public sealed record LineStay(string Code, DateOnly From, DateOnly To, int FirstSpace, int Spaces, bool Stays);

/// <summary>A heat zone or a bench over the season.</summary>
/// <param name="Bench">The bench a zone is on; null for a bench.</param>
/// <param name="OutOfUse">When it cannot be used, from a day to the first day it can again.</param>
/// <param name="Setpoints">Of a zone, °F, from a day to the first day no longer, where trays lie.</param>
public sealed record PlanLine(
    PlaceKind Kind, string Code, string? Bench, int Spaces, IReadOnlyList<LineStay> Stays,
    IReadOnlyList<(DateOnly From, DateOnly To)> OutOfUse, IReadOnlyList<(DateOnly From, DateOnly To, double SetpointF)> Setpoints);

/// <summary>A plan as rows to draw: zones, then benches, each in walking order.</summary>
internal static class PlanLines
{
    public static IReadOnlyList<PlanLine> Of(Problem problem, Plan plan) =>
    [
        .. problem.Zones.Select(zone => new PlanLine(
            PlaceKind.Heat, zone.Id, zone.Bench, zone.Spaces,
            [
                .. Frozen(problem, zone.Id),
                .. from batch in plan.Batches
                   from stay in batch.Heat
                   where stay.Zone == zone.Id
                   select new LineStay(batch.Id, batch.SowOn, batch.MoveOffOn, stay.FirstSpace, stay.Spaces, false),
            ],
            [.. Spans(zone.OutOfUse), .. Spans(problem.Benches.FirstOrDefault(bench => bench.Id == zone.Bench)?.OutOfUse)],
            [
                .. (plan.Zones.FirstOrDefault(path => path.Zone == zone.Id)?.Setpoints ?? [])
                    .Where(span => span.SetpointF.HasValue).Select(span => (span.From, span.To, span.SetpointF.GetValueOrDefault())),
            ])),
        .. problem.Benches.Where(bench => bench.Use != BenchUse.Heat).Select(bench => new PlanLine(
            Kind(bench.Use), bench.Id, null, bench.Spaces,
            [
                .. Frozen(problem, bench.Id),
                .. from batch in plan.Batches
                   from stay in batch.Benches
                   where stay.Bench == bench.Id
                   select new LineStay(batch.Id, batch.MoveOffOn, batch.HardenOn, stay.FirstSpaceAfter, stay.SpacesAfter, false),
            ],
            [.. Spans(bench.OutOfUse)],
            [])),
    ];

    public static PlaceKind Kind(BenchUse use) => use switch
    {
        BenchUse.Heat => PlaceKind.Heat,
        BenchUse.Warm => PlaceKind.Warm,
        BenchUse.Cool => PlaceKind.Cool,
        _ => PlaceKind.Hardening,
    };

    private static IEnumerable<(DateOnly From, DateOnly To)> Spans(IReadOnlyList<OutOfUse>? days) => (days ?? []).Select(span => (span.From, span.To));

    private static IEnumerable<LineStay> Frozen(Problem problem, string where) => (problem.Frozen ?? []).Where(stay => stay.Where == where)
        .Select(stay => new LineStay(stay.Batch ?? "trays", stay.From, stay.To, stay.FirstSpace, stay.Spaces, true));
}
