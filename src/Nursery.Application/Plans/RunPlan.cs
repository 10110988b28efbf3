using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Logging;
using Nursery.Application.Plans.Changes;
using Nursery.Application.Runs;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.People;
using Nursery.Domain.Runs;
using Nursery.Planning;

namespace Nursery.Application.Plans;

/// <summary>The work of a plan run: searches on a thread of its own and tells how far it is; a stop keeps the best plan so far.</summary>
public sealed class RunPlan(IDbContextFactory<NurseryDbContext> databases, BoundsProgram bounds, ILogger<RunPlan> log, TimeProvider time)
{
    /// <summary>Often enough to look at, seldom enough for the database.</summary>
    private static readonly TimeSpan Every = TimeSpan.FromMilliseconds(500);

    /// <summary>The bound is worked out beside the search and has this long when the plan is there.</summary>
    private static readonly TimeSpan Patience = TimeSpan.FromMilliseconds(500);

    /// <summary>For the bound when steps decide how long the search takes.</summary>
    private static readonly TimeSpan BoundAtMost = TimeSpan.FromSeconds(60);

    /// <summary>A job asks this, not a person: the run itself says in whose name.</summary>
    public Task HandleAsync(Guid id, CancellationToken cancellation = default)
    {
        var progress = new RunProgress(databases, new Id<BackgroundRun>(id), time);
        return progress.WorkAsync((run, actor) => PlanAsync(progress, KeptPlan.Of(run), actor, cancellation), log, cancellation);
    }

    /// <returns>Whether it had all its time.</returns>
    private async Task<bool> PlanAsync(RunProgress progress, KeptPlan kept, Actor actor, CancellationToken cancellation)
    {
        (kept, var look) = await GroundAsync(kept, actor, cancellation);
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
        PlanProgress? told = null;
        var bounding = BoundAsync(kept, stop.Token);
        var search = Task.Factory.StartNew(
            () => look(EffortOf(kept.Request), seen => Volatile.Write(ref told, seen), stop.Token),
            CancellationToken.None, TaskCreationOptions.LongRunning, TaskScheduler.Default);
        while (!search.IsCompleted)
        {
            await Task.WhenAny(search, Task.Delay(Every, CancellationToken.None));
            var seen = Volatile.Read(ref told);
            kept = kept with { BestCost = seen?.BestCost };
            if (!await progress.ReportAsync((int)((seen?.Done ?? 0) * PlanRun.Steps), PlanRun.Steps, null, kept, CancellationToken.None))
            {
                await stop.CancelAsync();
            }
        }

        var found = await search;
        cancellation.ThrowIfCancellationRequested();
        var all = !stop.IsCancellationRequested;
        var bound = await BoundOfAsync(bounding, found.Plan, stop);
        await progress.ReportAsync(
            all ? PlanRun.Steps : (int)((told?.Done ?? 0) * PlanRun.Steps), PlanRun.Steps, null,
            kept with
            {
                Plan = PlanningJson.Write(found.Plan),
                BestCost = found.Plan.Score.PositionedCost,
                WaysOut = found.WaysOut,
                Bound = bound,
                Replan = kept.Replan is { } replan ? replan with { Changed = found.Changed, NotStarted = found.NotStarted } : null,
            },
            cancellation);
        return all;
    }

    /// <summary>Of a plan that keeps today's there is none: it pays for keeping it.</summary>
    private Task<long?> BoundAsync(KeptPlan kept, CancellationToken stop) => kept.Request.Aim == PlanAim.Keep
        ? Task.FromResult<long?>(null)
        : bounds.BoundAsync(kept.Problem!, PlanningJson.ReadProblem(kept.Problem!).Batches.Count, BoundTime(kept.Request), stop);

    /// <summary>The plan does not wait for it: what is not there by now is no more asked for.</summary>
    private static async Task<long?> BoundOfAsync(Task<long?> bounding, Planning.Plans.Plan plan, CancellationTokenSource stop)
    {
        await Task.WhenAny(bounding, Task.Delay(Patience, CancellationToken.None));
        await stop.CancelAsync();
        return await bounding is { } bound && bound <= plan.Score.Cost ? bound : null;
    }

    private static TimeSpan BoundTime(PlanRequest request) =>
        request.Seconds is { } seconds ? TimeSpan.FromSeconds(Math.Max(1, 0.8 * seconds)) : BoundAtMost;

    /// <summary>What is planned, and how.</summary>
    private async Task<(KeptPlan Kept, Search Look)> GroundAsync(KeptPlan kept, Actor actor, CancellationToken cancellation)
    {
        if (kept.Request.Problem is { } sent)
        {
            return (kept with { Problem = sent }, (effort, tell, stop) => PlanSearch.Whole(PlanningJson.ReadProblem(sent), effort, tell, stop));
        }

        await using var database = await databases.CreateDbContextAsync(cancellation);
        if (kept.Request.Aim == PlanAim.Whole)
        {
            var (rows, today, start) = await SeasonProblems.RowsAsync(database, actor, time, cancellation);
            var ground = SeasonProblems.Of(rows, today, start, SeasonAsk.Whole);
            return (Kept(kept, ground, ground.Problem, ground.Today), (effort, tell, stop) => PlanSearch.Whole(ground.Problem, effort, tell, stop));
        }

        var season = await ChangedSeason.LoadAsync(database, kept.Request, actor, time, cancellation);
        var keeps = kept.Request.Aim == PlanAim.Keep;
        kept = Kept(kept, season.Before, keeps ? season.After : PlanSearch.Tried(season), PlanSearch.Today(season)) with
        {
            Replan = new KeptReplan(
                [.. season.Running.Select(set => set.Change).OfType<RunningChange>()], season.Homeless, null, null,
                PlanningJson.Write(season.Before.Problem), keeps ? season.Running : []),
        };
        return (kept, keeps
            ? (effort, tell, stop) => PlanSearch.Keep(season, effort, tell, stop)
            : (effort, tell, stop) => PlanSearch.Try(season, effort, tell, stop));
    }

    private static KeptPlan Kept(KeptPlan kept, SeasonGround ground, Planning.Problems.Problem problem, Planning.Plans.Plan today) => kept with
    {
        Problem = PlanningJson.Write(problem),
        Today = PlanningJson.Write(today),
        Batches = ground.Batches,
        Left = ground.Left,
    };

    private delegate Searched Search(Effort effort, Action<PlanProgress> tell, CancellationToken stop);

    private static Effort EffortOf(PlanRequest request) => request.Iterations is { } iterations
        ? new Effort(iterations, Seed: (ulong)request.Seed)
        : Effort.Seconds(request.Seconds ?? 1, (ulong)request.Seed);
}
