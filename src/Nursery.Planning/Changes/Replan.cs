using Nursery.Planning.Checks;
using Nursery.Planning.Plans;
using Nursery.Planning.Problems;
using Nursery.Planning.Search;

namespace Nursery.Planning.Changes;

/// <summary>Makes the rest of a season anew after something happened, with as few changes as it can: what is sown stays where it is unless
/// it cannot, everything else is put back where it was if that is still free, what does not fit is placed anew, and a short search
/// pays for every sow day, zone and bench that differs from the plan of today.</summary>
public static class Replan
{
    private static readonly SearchHeat Cold = new(Start: 60, End: 5, ZoneShare: 0.05, Most: 5, Blink: 0.01, Parts: 1);

    /// <param name="problem">The season as it was planned.</param>
    /// <param name="today">The plan that was accepted for it.</param>
    /// <param name="day">First day that can still be changed.</param>
    /// <param name="changes">What happened.</param>
    /// <param name="effort">0 steps: only put back and place anew.</param>
    /// <param name="running">Ids of the batches that are sown; null is those whose sow day is before <paramref name="day"/>.</param>
    /// <exception cref="ProblemUnreadable">A change names what is not there.</exception>
    public static Replanned Around(
        Problem problem, Plan today, DateOnly day, IReadOnlyList<SeasonChange> changes, Effort effort,
        IReadOnlyCollection<string>? running = null, Action<PlanProgress>? progress = null, CancellationToken cancellation = default)
    {
        var placed = today.Batches.ToDictionary(batch => batch.Id);
        var sown = (running ?? today.Batches.Where(batch => batch.SowOn < day).Select(batch => batch.Id)).ToHashSet();
        var slips = changes.OfType<BatchSlips>().Where(slip => sown.Contains(slip.Batch)).ToDictionary(slip => slip.Batch, slip => slip.Days);
        var known = problem with
        {
            Batches = [.. problem.Batches.Select(batch => placed.TryGetValue(batch.Id, out var was) && !sown.Contains(batch.Id)
                ? batch with { Now = new PlaceNow(was.SowOn, was.Heat[0].Zone, was.Benches[0].Bench) } : batch)],
        };
        var changed = changes.Where(change => change is not BatchSlips slip || !slips.ContainsKey(slip.Batch))
            .Aggregate(known, (so, change) => change.Applied(so));
        var wanted = changed.Batches.Select(batch => batch.Id).ToHashSet();
        var goesOn = new RunningTrays(changed with { Batches = [] }, day).GoOn(
            [.. today.Batches.Where(batch => sown.Contains(batch.Id) && wanted.Contains(batch.Id))], slips,
            problem.Batches.ToDictionary(batch => batch.Id));
        var rest = changed with
        {
            Batches = [.. changed.Batches.Where(batch => !sown.Contains(batch.Id)).Select(batch => NotBefore(batch, day))],
            Frozen = [.. changed.Frozen ?? [], .. goesOn.Stays],
            Setpoints = [.. changed.Setpoints ?? [], .. Past(today, problem, day)],
        };
        var @checked = ProblemCheck.Of(rest);
        var random = new SplitMix(effort.Seed);
        var season = PlanReading.PutBack(@checked.Usable, today.Batches, random);
        Planner.Better(season, effort, random, Cold, progress, cancellation);
        var planned = Planner.Written(season, @checked);
        var before = today with { Batches = [.. today.Batches.Where(batch => !sown.Contains(batch.Id) && wanted.Contains(batch.Id))] };
        return new Replanned(
            planned, goesOn.Batches, goesOn.Homeless, PlanDifference.Of(@checked.Usable, before, planned.Plan), before.Batches.Count);
    }

    private static Batch NotBefore(Batch batch, DateOnly day) => batch.SowFrom is { } from && from > day ? batch : batch with { SowFrom = day };

    /// <summary>Weeks that have begun keep their setpoints.</summary>
    private static IEnumerable<FrozenSetpoint> Past(Plan today, Problem problem, DateOnly day) =>
        from path in today.Zones
        from span in path.Setpoints
        where span.From < day && day > problem.Start
        select new FrozenSetpoint(path.Zone, span.From, span.To < day ? span.To : day, span.SetpointF);
}
