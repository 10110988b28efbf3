using Microsoft.EntityFrameworkCore;
using Nursery.Application.Runs;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Domain.Runs;

namespace Nursery.Application.Reservations;

/// <summary>Queues a first-fit for all batches without a place. Whoever hosts the jobs gives the run to <see cref="RunPlacing"/>.</summary>
public sealed class StartPlacing(IDbContextFactory<NurseryDbContext> databases, PlaceByFirstFit place, TimeProvider time)
{
    /// <exception cref="RunUnderWay">One is under way on this site.</exception>
    public async Task<PlacingRun> HandleAsync(Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Plan);
        var total = (await place.WaitingAsync(actor, cancellation)).Count;
        return await databases.RunAsync(
            async database =>
            {
                var run = await LiveRuns.BeginAsync(database, RunKind.FirstFit, total, actor, time, cancellation);
                await database.SaveChangesAsync(cancellation);
                return PlacingRun.From(run);
            },
            cancellation);
    }
}
