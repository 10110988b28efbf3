using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Logging;
using Nursery.Application.Runs;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.People;
using Nursery.Domain.Runs;
using Nursery.Planning;
using Nursery.Planning.Checks;
using Nursery.Planning.Plans;
using Nursery.Planning.Problems;
using Nursery.Planning.Repairs;

namespace Nursery.Application.Plans;

/// <summary>The work of a plan run: searches on a thread of its own and tells how far it is; a stop keeps the best plan so far.</summary>
public sealed class RunPlan(IDbContextFactory<NurseryDbContext> databases, ILogger<RunPlan> log, TimeProvider time)
{
    /// <summary>Often enough to look at, seldom enough for the database.</summary>
    private static readonly TimeSpan Every = TimeSpan.FromMilliseconds(500);

    /// <summary>For each way out that is tried: enough to see whether it helps.</summary>
    private static readonly Effort ForAWay = new(Steps: 400);

    /// <summary>Cents for a rented tray space a week (from memory; nobody set one).</summary>
    private const int RentSpaceWeek = 150;

    /// <summary>A job asks this, not a person: the run itself says in whose name.</summary>
    public Task HandleAsync(Guid id, CancellationToken cancellation = default)
    {
        var progress = new RunProgress(databases, new Id<BackgroundRun>(id), time);
        return progress.WorkAsync((run, actor) => PlanAsync(progress, KeptPlan.Of(run), actor, cancellation), log, cancellation);
    }

    /// <returns>Whether it had all its time.</returns>
    private async Task<bool> PlanAsync(RunProgress progress, KeptPlan kept, Actor actor, CancellationToken cancellation)
    {
        kept = kept.Request.Problem is { } sent ? kept with { Problem = sent } : await OwnSeasonAsync(kept, actor, cancellation);
        var problem = PlanningJson.ReadProblem(kept.Problem!);
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
        PlanProgress? told = null;
        var search = Task.Factory.StartNew(
            () => Search(problem, EffortOf(kept.Request), seen => Volatile.Write(ref told, seen), stop.Token),
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

        var (plan, waysOut) = await search;
        cancellation.ThrowIfCancellationRequested();
        var all = !stop.IsCancellationRequested;
        await progress.ReportAsync(
            all ? PlanRun.Steps : (int)((told?.Done ?? 0) * PlanRun.Steps), PlanRun.Steps, null,
            kept with { Plan = PlanningJson.Write(plan), BestCost = plan.Score.PositionedCost, WaysOut = waysOut }, cancellation);
        return all;
    }

    private async Task<KeptPlan> OwnSeasonAsync(KeptPlan kept, Actor actor, CancellationToken cancellation)
    {
        await using var database = await databases.CreateDbContextAsync(cancellation);
        var ground = await SeasonProblems.LoadAsync(database, actor, time, cancellation);
        return kept with
        {
            Problem = PlanningJson.Write(ground.Problem),
            Today = PlanningJson.Write(ground.Today),
            Batches = ground.Batches,
            Left = ground.Left,
        };
    }

    private static (Plan Plan, WaysOut? WaysOut) Search(Problem problem, Effort effort, Action<PlanProgress> tell, CancellationToken stop)
    {
        var (plan, @checked) = Planner.Plan(problem, effort, tell, stop);
        if (plan.Unplaced.All(batch => batch.Reason != WhyNot.NoSpaceFound) || stop.IsCancellationRequested)
        {
            return (plan, null);
        }

        return (plan, Words(Repairing.Of(@checked.Usable, plan, RentSpaceWeek, ForAWay, stop)));
    }

    private static WaysOut Words(WayOut way) => new(way.Sentence, [.. way.Repairs.Select(repair => repair.Sentence)]);

    private static Effort EffortOf(PlanRequest request) => request.Iterations is { } iterations
        ? new Effort(iterations, Seed: (ulong)request.Seed)
        : Effort.Seconds(request.Seconds ?? 1, (ulong)request.Seed);
}
