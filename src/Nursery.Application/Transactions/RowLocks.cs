using Microsoft.EntityFrameworkCore;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.Benches;

namespace Nursery.Application.Transactions;

/// <summary>Locks rows in id order, so that two writers wait for each other and never in a ring.</summary>
internal static class RowLocks
{
    public static async Task<List<Batch>> LockBatchesAsync(
        this NurseryDbContext database, IEnumerable<Id<Batch>> ids, CancellationToken cancellation) =>
        await (await LockAsync(database, ids, cancellation)).ToListAsync(cancellation);

    /// <summary>For who changes no batch, only what hangs on it: nothing is tracked.</summary>
    public static async Task<List<Batch>> LockToReadAsync(
        this NurseryDbContext database, IEnumerable<Id<Batch>> ids, CancellationToken cancellation) =>
        await (await LockAsync(database, ids, cancellation)).AsNoTracking().ToListAsync(cancellation);

    private static async Task<IQueryable<Batch>> LockAsync(
        NurseryDbContext database, IEnumerable<Id<Batch>> ids, CancellationToken cancellation)
    {
        var sorted = ids.Distinct().Order().ToList();
        var keys = sorted.ConvertAll(id => id.Value).ToArray();

        // Two steps: EF cannot read an entity with a complex property out of SQL of ours.
        await database.Database.ExecuteSqlAsync(
            $"SELECT 1 FROM batches WHERE id = ANY ({keys}) ORDER BY id FOR UPDATE", cancellation);
        return database.Batches.Where(batch => sorted.Contains(batch.Id)).OrderBy(batch => batch.Id);
    }

    /// <summary>A batch and all that share trays with it: what happens to their trays happens to all of them.</summary>
    public static async Task<List<Batch>> LockSharingAsync(
        this NurseryDbContext database, Id<Batch> id, CancellationToken cancellation)
    {
        var traySets = database.TrayShares.Where(share => share.BatchId == id).Select(share => share.TraySetId);
        var sharing = await database.TrayShares.Where(share => traySets.Contains(share.TraySetId))
            .Select(share => share.BatchId).ToListAsync(cancellation);
        return await database.LockBatchesAsync([id, .. sharing], cancellation);
    }

    public static async Task<List<Bench>> LockBenchesAsync(
        this NurseryDbContext database, IEnumerable<Id<Bench>> ids, CancellationToken cancellation)
    {
        var sorted = ids.Select(id => id.Value).Distinct().Order().ToArray();
        return await database.Benches
            .FromSql($"SELECT * FROM benches WHERE id = ANY ({sorted}) ORDER BY id FOR UPDATE")
            .ToListAsync(cancellation);
    }
}
