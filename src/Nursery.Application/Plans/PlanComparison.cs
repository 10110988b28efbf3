using Nursery.Planning.Plans;
using Nursery.Planning.Problems;

namespace Nursery.Application.Plans;

/// <summary>Where and when a batch stands in a plan.</summary>
/// <param name="ReadyOn">As the product counts it: its trays are gone the day after.</param>
/// <param name="SetpointF">°F it germinates at.</param>
public sealed record BatchPlace(
    DateOnly SowOn, DateOnly MoveOffOn, DateOnly ReadyOn, double SetpointF, IReadOnlyList<string> Zones, IReadOnlyList<string> Benches)
{
    internal static BatchPlace? Of(PlannedBatch? placed) => placed is null ? null : new BatchPlace(
        placed.SowOn, placed.MoveOffOn, placed.ReadyOn.AddDays(-1), placed.SetpointF,
        [.. placed.Heat.Select(stay => stay.Zone).Distinct()], [.. placed.Benches.Select(stay => stay.Bench).Distinct()]);
}

/// <summary>A batch in the plan of today and in a proposal.</summary>
/// <param name="Today">Null: it has no place today.</param>
/// <param name="Then">Null: the proposal has none for it.</param>
/// <param name="LateToday">Days after its last day on time, 0 or more; null without a place.</param>
/// <param name="LateThen">The same in the proposal.</param>
public sealed record BatchChange(string Code, int Trays, BatchPlace? Today, BatchPlace? Then, int? LateToday, int? LateThen)
{
    public bool SowDay => Today is { } was && Then is { } now && was.SowOn != now.SowOn;

    public bool Zone => Today is { } was && Then is { } now && was.Zones[0] != now.Zones[0];

    public bool Bench => Today is { } was && Then is { } now && was.Benches[0] != now.Benches[0];

    public bool Gains => Today is null && Then is not null;

    public bool Loses => Today is not null && Then is null;

    public bool BecomesSafe => LateThen == 0 && LateToday is null or > 0;

    public bool BecomesLate => LateThen > 0 && LateToday == 0;

    /// <summary>Whether a person would notice.</summary>
    public bool Differs => SowDay || Zone || Bench || Gains || Loses || BecomesSafe || BecomesLate;
}

/// <summary>A zone that is set to something else in a proposal in weeks in which trays lie on it.</summary>
public sealed record ZoneChange(string Zone, DateOnly From, DateOnly To, double? TodayF, double ThenF);

/// <summary>A proposal beside the plan of today.</summary>
/// <param name="TodayCost">Cents, changes left out.</param>
/// <param name="ThenCost">The same of the proposal.</param>
/// <param name="Costs">By name: cents today and then.</param>
public sealed record PlanComparison(
    IReadOnlyList<BatchChange> Batches, IReadOnlyList<ZoneChange> Zones, long TodayCost, long ThenCost,
    IReadOnlyList<(string Name, long Today, long Then)> Costs)
{
    /// <param name="season">What today's plan is of.</param>
    /// <param name="problem">What the proposal is of: the same, or the season with what happened.</param>
    /// <param name="today">The plan in force.</param>
    /// <param name="then">The proposal.</param>
    internal static PlanComparison Of(Problem season, Problem problem, Plan today, Plan then)
    {
        var (was, now) = (today.Batches.ToDictionary(batch => batch.Id), then.Batches.ToDictionary(batch => batch.Id));
        return new PlanComparison(
            [.. season.Batches.UnionBy(problem.Batches, batch => batch.Id).Select(batch =>
            {
                var (old, @new) = (was.GetValueOrDefault(batch.Id), now.GetValueOrDefault(batch.Id));
                return new BatchChange(batch.Id, batch.Trays, BatchPlace.Of(old), BatchPlace.Of(@new), Late(batch, old), Late(batch, @new));
            })],
            [.. then.Zones.SelectMany(path => Changes(problem, today, path))],
            today.Score.PositionedCost, then.Score.PositionedCost,
            [.. then.Score.ByConstraint.Select(pair => (pair.Key, today.Score.ByConstraint.GetValueOrDefault(pair.Key), pair.Value))]);
    }

    private static int? Late(Batch batch, PlannedBatch? placed) =>
        placed is null ? null : Math.Max(0, placed.ReadyOn.DayNumber - batch.LastOnTime.DayNumber);

    /// <summary>Week by week, weeks that are the same joined.</summary>
    private static IEnumerable<ZoneChange> Changes(Problem problem, Plan today, ZonePath path)
    {
        var old = today.Zones.FirstOrDefault(zone => zone.Zone == path.Zone);
        ZoneChange? open = null;
        for (var day = problem.Start; day < problem.End; day = day.AddDays(7))
        {
            var (was, now) = (At(old, day), At(path, day));
            var differs = now is not null && was is not null && was != now;
            if (open is not null && differs && open.TodayF == was && open.ThenF == now)
            {
                open = open with { To = day.AddDays(7) };
                continue;
            }

            if (open is not null)
            {
                yield return open;
            }

            open = differs ? new ZoneChange(path.Zone, day, day.AddDays(7), was, now!.Value) : null;
        }

        if (open is not null)
        {
            yield return open;
        }
    }

    internal static double? At(ZonePath? path, DateOnly day) =>
        path?.Setpoints.FirstOrDefault(span => span.From <= day && day < span.To)?.SetpointF;
}
