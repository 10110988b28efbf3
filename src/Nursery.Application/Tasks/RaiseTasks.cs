using Microsoft.EntityFrameworkCore;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Batches;

namespace Nursery.Application.Tasks;

/// <summary>Raises what is due from every live batch's age and crop profile, on all sites. Hourly and at start; running it
/// twice, late, or in two processes at once leaves the same rows.</summary>
public sealed class RaiseTasks(IDbContextFactory<NurseryDbContext> databases, TimeProvider time)
{
    private const int BatchesAtATime = 500;

    /// <returns>How many batches were looked at.</returns>
    public async Task<int> HandleAsync(CancellationToken cancellation = default)
    {
        List<Id<Batch>> live;
        Dictionary<Id<Domain.Sites.Site>, Domain.Sites.Site> sites;
        await using (var database = await databases.CreateDbContextAsync(cancellation))
        {
            sites = await database.Sites.AsNoTracking().ToDictionaryAsync(site => site.Id, cancellation);
            live = await database.Batches
                .Where(batch => batch.State.Stage != BatchStage.HandedOver && batch.State.Stage != BatchStage.Discarded)
                .OrderBy(batch => batch.Id)
                .Select(batch => batch.Id)
                .ToListAsync(cancellation);
        }

        foreach (var chunk in live.Chunk(BatchesAtATime))
        {
            await databases.RunAsync(
                async database =>
                {
                    var batches = await database.LockBatchesAsync(chunk, cancellation);
                    foreach (var site in batches.GroupBy(batch => batch.SiteId))
                    {
                        await TaskWriting.SyncAsync(database, [.. site], sites[site.Key].Today(time), time, cancellation);
                    }

                    return batches.Count;
                },
                cancellation);
        }

        return live.Count;
    }
}
