using Microsoft.EntityFrameworkCore;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.Sites;

namespace Nursery.Application.Tasks;

/// <summary>Raises what is due from every live batch's age and crop profile, and from what stands on benches, on all sites. Hourly and at
/// start; running it twice, late, or in two processes at once leaves the same rows.</summary>
public sealed class RaiseTasks(IDbContextFactory<NurseryDbContext> databases, TimeProvider time)
{
    private const int BatchesAtATime = 2000;

    /// <summary>While one waits for the database the other applies the rules; they never touch the same batches.</summary>
    private const int SideBySide = 2;

    /// <returns>How many batches were looked at.</returns>
    public async Task<int> HandleAsync(CancellationToken cancellation = default)
    {
        List<Id<Batch>> live;
        Dictionary<Id<Site>, Site> sites;
        await using (var database = await databases.CreateDbContextAsync(cancellation))
        {
            sites = await database.Sites.AsNoTracking().ToDictionaryAsync(site => site.Id, cancellation);

            // Those gone are looked at until their spaces are cleared.
            live = await database.Batches
                .Where(batch => (batch.State.Stage != BatchStage.HandedOver && batch.State.Stage != BatchStage.Discarded)
                    || (batch.State.SownOn != null && batch.State.ClearedOn == null))
                .OrderBy(batch => batch.Id)
                .Select(batch => batch.Id)
                .ToListAsync(cancellation);
        }

        await Parallel.ForEachAsync(
            live.Chunk(BatchesAtATime),
            new ParallelOptions { MaxDegreeOfParallelism = SideBySide, CancellationToken = cancellation },
            async (chunk, stop) => await databases.RunAsync(database => RaiseAsync(database, chunk, sites, stop), stop));

        foreach (var site in sites.Values.OrderBy(site => site.Id))
        {
            await databases.RunAsync(database => RaiseAsync(database, site, cancellation), cancellation);
        }

        return live.Count;
    }

    private async Task<bool> RaiseAsync(
        NurseryDbContext database, Id<Batch>[] chunk, Dictionary<Id<Site>, Site> sites, CancellationToken cancellation)
    {
        var batches = await database.LockToReadAsync(chunk, cancellation);
        foreach (var site in batches.GroupBy(batch => batch.SiteId))
        {
            await TaskWriting.SyncAsync(database, [.. site], sites[site.Key].Today(time), time, cancellation);
        }

        return true;
    }

    private async Task<bool> RaiseAsync(NurseryDbContext database, Site site, CancellationToken cancellation)
    {
        var benches = await database.Benches.Where(bench => bench.SiteId == site.Id).Select(bench => bench.Id).ToListAsync(cancellation);
        await PlaceTasks.SyncAsync(database, benches, site.Today(time), time, cancellation);
        return true;
    }
}
