using NodaTime;
using Nursery.Application.Plans.Changes;
using Nursery.Planning;
using Nursery.Planning.Changes;
using Nursery.Planning.Checks;
using Nursery.Planning.Plans;
using Nursery.Planning.Problems;
using Nursery.Planning.Repairs;
using Nursery.Planning.Scoring;

namespace Nursery.Application.Plans;

/// <summary>What a search found.</summary>
/// <param name="Changed">Batches not sown yet that differ from today's plan; null for a whole plan.</param>
/// <param name="NotStarted">Of how many.</param>
internal sealed record Searched(Plan Plan, WaysOut? WaysOut, int? Changed = null, int? NotStarted = null);

/// <summary>The search itself, for each aim; it knows no database.</summary>
internal static class PlanSearch
{
    /// <summary>For each way out that is tried: enough to see whether it helps.</summary>
    private static readonly Effort ForAWay = new(Steps: 400);

    /// <summary>Cents for a rented tray space a week (from memory; nobody set one).</summary>
    private const int RentSpaceWeek = 150;

    public static Searched Whole(Problem problem, Effort effort, Action<PlanProgress> tell, CancellationToken stop) =>
        WithWaysOut(Planner.Plan(problem, effort, tell, stop), stop);

    /// <summary>Today's plan kept as far as it can be.</summary>
    public static Searched Keep(ChangedSeason season, Effort effort, Action<PlanProgress> tell, CancellationToken stop)
    {
        var day = season.Today.ToDateOnly();

        // A zone without trays this week counts as off in today's plan, but may be set at once: only weeks with trays are promised, and not
        // where running trays come that need another setpoint.
        var today = season.Before.Today with
        {
            Zones = [.. season.Before.Today.Zones.Select(path => path with { Setpoints = [.. path.Setpoints.Where(span => span.SetpointF is { } setpoint && !Needed(season.After, path.Zone, setpoint))] })],
        };
        var replanned = Replan.Around(season.After, today, day, season.Changes, effort, [], tell, stop);
        return WithWaysOut(replanned.Planned, stop) with { Changed = replanned.Difference.Changed.Count, NotStarted = replanned.NotStarted };
    }

    /// <summary>Whether trays that stay need another setpoint of a zone this week.</summary>
    private static bool Needed(Problem problem, string zone, double setpointF) => (problem.Frozen ?? []).Any(
        stay => stay.Where == zone && stay.From < problem.Start.AddDays(7) && stay.To > problem.Start && (stay.MinF > setpointF || stay.MaxF < setpointF));

    /// <summary>A plan of a copy with the changes.</summary>
    public static Searched Try(ChangedSeason season, Effort effort, Action<PlanProgress> tell, CancellationToken stop)
    {
        var today = Today(season);
        var (planned, difference) = WhatIf.Try(season.After, today, season.Changes, effort, tell, stop);
        var wanted = Tried(season).Batches.Select(batch => batch.Id).ToHashSet();
        return WithWaysOut(planned, stop) with { Changed = difference.Changed.Count, NotStarted = today.Batches.Count(batch => wanted.Contains(batch.Id)) };
    }

    /// <summary>The problem that is tried.</summary>
    public static Problem Tried(ChangedSeason season) => season.Changes.Aggregate(season.After, (so, change) => change.Applied(so));

    /// <summary>Today's plan at the prices that are tried: else it could not be compared.</summary>
    public static Plan Today(ChangedSeason season)
    {
        var priced = season.Changes.OfType<PricesChanged>().LastOrDefault() is { } prices
            ? season.Before.Problem with { Prices = prices.Prices }
            : season.Before.Problem;
        return season.Before.Today with { Score = new Scorer(priced).Of(season.Before.Today) };
    }

    private static Searched WithWaysOut(Planned planned, CancellationToken stop)
    {
        var (plan, @checked) = planned;
        return plan.Unplaced.All(batch => batch.Reason != WhyNot.NoSpaceFound) || stop.IsCancellationRequested
            ? new Searched(plan, null)
            : new Searched(plan, Words(Repairing.Of(@checked.Usable, plan, RentSpaceWeek, ForAWay, stop)));
    }

    private static WaysOut Words(WayOut way) => new(way.Sentence, [.. way.Repairs.Select(repair => repair.Sentence)]);
}
