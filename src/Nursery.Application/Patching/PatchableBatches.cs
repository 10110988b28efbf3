using Microsoft.EntityFrameworkCore;
using Nursery.Agronomy.Patching;
using Nursery.Application.Batches;
using Nursery.Application.Computed;
using Nursery.Application.Forecasts;
using Nursery.Application.Rounds;
using Nursery.Data;
using Nursery.Domain.Ledger;
using Nursery.Domain.Sites;
using Nursery.Domain.TraySets;

namespace Nursery.Application.Patching;

/// <summary>Finds the batches with something to patch or merge. Trays that are shared stay as they are: others stand in them.</summary>
internal static class PatchableBatches
{
    /// <param name="code">Of a batch; null for all that grow.</param>
    public static async Task<IReadOnlyList<PatchableBatch>> LoadAsync(
        NurseryDbContext database, Site site, string? code, CancellationToken cancellation)
    {
        var rows = await BatchForecasts.Running(database.BatchRows(site.Id)).AsNoTracking()
            .Where(row => (code == null || row.Batch.Code == code)
                && database.TrayShares.Count(share => share.TraySetId == row.TraySet.Id) == 1
                && row.Batch.State.CellsUp != null)
            .ToListAsync(cancellation);
        var ids = rows.ConvertAll(row => row.Batch.Id);
        var wanted = await database.Allocations.Where(row => ids.Contains(row.BatchId))
            .GroupBy(row => row.BatchId).Select(group => new { group.Key, Plants = group.Sum(row => row.Plants) })
            .ToDictionaryAsync(row => row.Key, row => row.Plants, cancellation);
        var ledger = await BatchLedger.LoadAsync(database, ids, rows.ConvertAll(row => row.TraySet.Id), cancellation);
        return
        [
            .. rows.OrderBy(row => row.Batch.Code, StringComparer.Ordinal)
                .Select(row => Of(row, ledger, wanted.TryGetValue(row.Batch.Id, out var plants) ? plants : null))
                .Where(batch => batch is { Chosen.Seedlings: > 0 } or { Chosen.Emptied.Count: > 0 }).Select(batch => batch!),
        ];
    }

    private static PatchableBatch? Of(BatchRow row, BatchLedger ledger, int? wanted)
    {
        var places = LedgerOrder.Effective(ledger.PlacesOf(row.TraySet.Id));
        var trays = Enumerable.Range(1, row.TraySet.Trays).Except(TraySetStory.Discarded(row.TraySet, places)).ToList();
        var counted = CountedTrays.Of(LedgerOrder.Effective(ledger.Of(row.Batch.Id)), row.Batch, trays, row.TraySet.CellsPerTray);
        if (counted.Trays.Count == 0)
        {
            return null;
        }

        // What is ordered, and what will be lost of it.
        int? enough = wanted is { } plants ? (int)Math.Ceiling(plants / CropSurvival.Of(row.Crop).Mean) : null;
        return new PatchableBatch(row, counted, PatchPlan.All(counted.Trays, row.TraySet.CellsPerTray, enough));
    }
}
