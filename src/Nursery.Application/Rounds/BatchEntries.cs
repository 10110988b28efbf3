using Microsoft.EntityFrameworkCore;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.Ledger;
using Nursery.Domain.TraySets;

namespace Nursery.Application.Rounds;

/// <summary>Reads what the ledger says of batches: about them, where their tray sets were put, and every undo of those.
/// An undo counts only on the site of what it takes back.</summary>
internal static class BatchEntries
{
    public static async Task<List<LedgerEntry>> LoadAsync(
        NurseryDbContext database, IReadOnlyCollection<Id<Batch>> batches, CancellationToken cancellation)
    {
        var traySets = await database.TrayShares
            .Where(share => batches.Contains(share.BatchId))
            .Select(share => share.TraySetId)
            .Distinct()
            .ToListAsync(cancellation);
        var about = await database.Ledger.AsNoTracking()
            .Where(entry => (entry.BatchId != null && batches.Contains(entry.BatchId.Value))
                || (entry.TraySetId != null && traySets.Contains(entry.TraySetId.Value)
                    && (entry.BatchId == null || entry.Kind == LedgerKind.Placed || entry.Kind == LedgerKind.Moved)))
            .ToListAsync(cancellation);
        return await WithUndosAsync(database, about, cancellation);
    }

    public static async Task<List<LedgerEntry>> OfTraySetAsync(
        NurseryDbContext database, Id<TraySet> traySet, CancellationToken cancellation)
    {
        var about = await database.Ledger.AsNoTracking()
            .Where(entry => entry.TraySetId == traySet)
            .ToListAsync(cancellation);
        return await WithUndosAsync(database, about, cancellation);
    }

    /// <summary>An undo names only the entry it takes back, for that one may arrive later; so it is found by that name.</summary>
    private static async Task<List<LedgerEntry>> WithUndosAsync(
        NurseryDbContext database, List<LedgerEntry> about, CancellationToken cancellation)
    {
        var ids = about.Select(entry => entry.Id).Concat(about.Where(entry => entry.CausedBy != null).Select(entry => entry.CausedBy!.Value))
            .Distinct().ToList();
        var sites = about.Select(entry => entry.SiteId).Distinct().ToList();
        var undos = await database.Ledger.AsNoTracking()
            .Where(entry => entry.UndoOf != null && ids.Contains(entry.UndoOf.Value) && sites.Contains(entry.SiteId))
            .ToListAsync(cancellation);
        return [.. about.Concat(undos).DistinctBy(entry => entry.Id)];
    }
}
