using Microsoft.EntityFrameworkCore;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Domain.Runs;

namespace Nursery.Application.Runs;

/// <summary>Asks a run to stop after its present step; what it has done stays. One that is over stays as it is.</summary>
public sealed class StopRun(IDbContextFactory<NurseryDbContext> databases, TimeProvider time)
{
    /// <exception cref="NotFound">No such run of that kind on this site.</exception>
    public async Task HandleAsync(Guid id, RunKind kind, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(RunRights.For(kind));
        var runId = new Id<BackgroundRun>(id);
        await using var database = await databases.CreateDbContextAsync(cancellation);
        var now = LiveRuns.Now(time);
        var runs = database.BackgroundRuns.Where(run => run.Id == runId && run.SiteId == actor.SiteId && run.Kind == kind);

        // Not begun yet: there is no step to wait for.
        await runs.Where(run => run.State == RunState.Queued).ExecuteUpdateAsync(
            set => set.SetProperty(run => run.State, RunState.Stopped).SetProperty(run => run.StopRequested, true)
                .SetProperty(run => run.EndedAt, now),
            cancellation);
        await runs.Where(run => run.State == RunState.Running)
            .ExecuteUpdateAsync(set => set.SetProperty(run => run.StopRequested, true), cancellation);
        if (!await runs.AnyAsync(cancellation))
        {
            throw new NotFound("run", "id", id.ToString());
        }
    }
}
