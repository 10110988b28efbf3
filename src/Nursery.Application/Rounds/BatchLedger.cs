using Microsoft.EntityFrameworkCore;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.Ledger;
using Nursery.Domain.TraySets;

namespace Nursery.Application.Rounds;

/// <summary>What the ledger says of many batches and tray sets, read in three queries however many they are, and given out one by one.</summary>
internal sealed class BatchLedger
{
    private readonly ILookup<Id<Batch>, LedgerEntry> _ofBatch;
    private readonly ILookup<Id<TraySet>, LedgerEntry> _ofTraySet;
    private readonly ILookup<Id<Batch>, Id<TraySet>> _traySets;
    private readonly ILookup<Id<LedgerEntry>, LedgerEntry> _undos;

    private BatchLedger(ILookup<Id<Batch>, Id<TraySet>> traySets, List<LedgerEntry> about, List<LedgerEntry> undos)
    {
        _traySets = traySets;
        _ofBatch = about.Where(entry => entry.BatchId != null).ToLookup(entry => entry.BatchId!.Value);
        _ofTraySet = about.Where(entry => entry.TraySetId != null).ToLookup(entry => entry.TraySetId!.Value);
        _undos = undos.ToLookup(entry => entry.UndoOf!.Value);
    }

    public static async Task<BatchLedger> LoadAsync(
        NurseryDbContext database,
        IReadOnlyCollection<Id<Batch>> batches,
        IReadOnlyCollection<Id<TraySet>> traySets,
        CancellationToken cancellation)
    {
        var shares = await database.TrayShares.Where(share => batches.Contains(share.BatchId))
            .Select(share => new { share.BatchId, share.TraySetId }).ToListAsync(cancellation);
        var sets = shares.Select(share => share.TraySetId).Concat(traySets).Distinct().ToList();
        var about = await database.Ledger.AsNoTracking()
            .Where(entry => (entry.BatchId != null && batches.Contains(entry.BatchId.Value))
                || (entry.TraySetId != null && sets.Contains(entry.TraySetId.Value)
                    && (entry.BatchId == null || entry.Kind == LedgerKind.Placed || entry.Kind == LedgerKind.Moved
                        || entry.Kind == LedgerKind.TraysDiscarded)))
            .ToListAsync(cancellation);
        var ids = about.Select(entry => entry.Id).Concat(about.Where(entry => entry.CausedBy != null).Select(entry => entry.CausedBy!.Value))
            .Distinct().ToList();
        var sites = about.Select(entry => entry.SiteId).Distinct().ToList();

        // An undo names only the entry it takes back, for that one may arrive later; so it is found by that name.
        var undos = await database.Ledger.AsNoTracking()
            .Where(entry => entry.UndoOf != null && ids.Contains(entry.UndoOf.Value) && sites.Contains(entry.SiteId))
            .ToListAsync(cancellation);
        return new BatchLedger(shares.ToLookup(share => share.BatchId, share => share.TraySetId), about, undos);
    }

    /// <summary>All about a batch: what names it, and where its tray sets were put.</summary>
    public IReadOnlyCollection<LedgerEntry> Of(Id<Batch> batch) => WithUndos(_ofBatch[batch].Concat(_traySets[batch]
        .SelectMany(set => _ofTraySet[set].Where(entry => entry.BatchId == null || entry.Kind is LedgerKind.Placed or LedgerKind.Moved))));

    /// <summary>Where a tray set was put, and which of its trays were thrown away.</summary>
    public IReadOnlyCollection<LedgerEntry> PlacesOf(Id<TraySet> traySet) =>
        WithUndos(_ofTraySet[traySet].Where(entry => entry.Kind is LedgerKind.Placed or LedgerKind.Moved or LedgerKind.TraysDiscarded));

    private List<LedgerEntry> WithUndos(IEnumerable<LedgerEntry> entries)
    {
        var about = entries.DistinctBy(entry => entry.Id).ToList();
        var undos = about.SelectMany(entry => _undos[entry.Id].Concat(entry.CausedBy is { } cause ? _undos[cause] : []));
        return [.. about.Concat(undos).DistinctBy(entry => entry.Id)];
    }
}
