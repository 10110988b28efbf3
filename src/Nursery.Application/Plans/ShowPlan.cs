using Microsoft.EntityFrameworkCore;
using Nursery.Application.Runs;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Domain.Runs;
using Nursery.Planning;
using Nursery.Planning.Plans;

namespace Nursery.Application.Plans;

/// <summary>A proposal beside the plan that was in force when it was made.</summary>
/// <param name="Run">How it came to be.</param>
/// <param name="Start">First day of the season, a Monday.</param>
/// <param name="Days">Up to the week in which the last trays leave, in either plan.</param>
/// <param name="Names">Variety of every batch, by code.</param>
/// <param name="Ids">Of every batch that is planned, by code.</param>
/// <param name="Then">The proposal by zone and bench.</param>
/// <param name="Today">The same of today's plan.</param>
/// <param name="Loads">How full it gets in the proposal and in today's plan, by kind of place.</param>
/// <param name="Timings">How the days of its batches come to be, by code.</param>
public sealed record Proposal(
    PlanRun Run, DateOnly Start, int Days, PlanComparison Comparison, IReadOnlyDictionary<string, string> Names, IReadOnlyDictionary<string, Guid> Ids, WaysOut? WaysOut,
    IReadOnlyList<PlanLine> Then, IReadOnlyList<PlanLine> Today, IReadOnlyList<(PlaceLoad Then, PlaceLoad Today)> Loads,
    IReadOnlyDictionary<string, BatchTiming> Timings);

/// <summary>A plan run, or the site's latest, alone or beside the plan it was made from.</summary>
public sealed class ShowPlan(IDbContextFactory<NurseryDbContext> databases, TimeProvider time)
{
    /// <exception cref="NotFound">No plan run of that id on the site.</exception>
    public async Task<PlanRun> HandleAsync(Guid id, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Read);
        return await LoadAsync(id, actor, cancellation) is { } run
            ? PlanRun.From(run)
            : throw new NotFound("plan", "id", id.ToString());
    }

    /// <summary>The site's latest run and, once it is over and has a plan of the own season, all there is to see of it.</summary>
    /// <returns>Nulls when there was none on the site yet.</returns>
    public async Task<(PlanRun? Run, Proposal? Proposal)> LatestAsync(Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Read);
        if (await LoadAsync(null, actor, cancellation) is not { } latest)
        {
            return (null, null);
        }

        var kept = KeptPlan.Of(latest);
        var run = PlanRun.From(latest, kept);
        return (run, run is { Plan: { } plan, OwnSeason: true, IsLive: false } ? Of(run, kept, plan) : null);
    }

    private static Proposal Of(PlanRun run, KeptPlan kept, Plan plan)
    {
        var (problem, today) = (PlanningJson.ReadProblem(kept.Problem!), PlanningJson.ReadPlan(kept.Today!));
        var season = kept.Replan is { } replan ? PlanningJson.ReadProblem(replan.Season) : problem;
        var days = Math.Max(SeasonSpan.Drawn(problem, plan).Days, SeasonSpan.Drawn(season, today).Days);
        var (drawn, before) = (problem with { Days = days }, season with { Days = days });
        return new Proposal(
            run, drawn.Start, drawn.Days, PlanComparison.Of(season, problem, today, plan),
            kept.Batches.ToDictionary(batch => batch.Code, batch => batch.Variety), kept.Batches.ToDictionary(batch => batch.Code, batch => batch.BatchId), kept.WaysOut,
            PlanLines.Of(drawn, plan), PlanLines.Of(before, today), [.. SeasonLoads.Of(drawn, plan).Zip(SeasonLoads.Of(before, today))],
            BatchTiming.Of(problem, plan));
    }

    private async Task<BackgroundRun?> LoadAsync(Guid? id, Actor actor, CancellationToken cancellation)
    {
        await using var database = await databases.CreateDbContextAsync(cancellation);
        await LiveRuns.BuryAsync(database, time, cancellation);
        var runs = database.BackgroundRuns.AsNoTracking().Where(run => run.SiteId == actor.SiteId && run.Kind == RunKind.Plan);
        if (id is not { } wanted)
        {
            return await runs.OrderByDescending(run => run.StartedAt).ThenByDescending(run => run.Id).FirstOrDefaultAsync(cancellation);
        }

        var runId = new Id<BackgroundRun>(wanted);
        return await runs.SingleOrDefaultAsync(run => run.Id == runId, cancellation);
    }
}
