using Microsoft.EntityFrameworkCore;
using Nursery.Application.Batches;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Batches;

namespace Nursery.Application.Sowings;

/// <summary>What the orders of some batches want of them, and where those are to germinate.</summary>
internal sealed class SowingWishes
{
    private readonly Dictionary<Id<Batch>, int> _wanted;
    private readonly HeatPlaces _places;

    private SowingWishes(Dictionary<Id<Batch>, int> wanted, HeatPlaces places) => (_wanted, _places) = (wanted, places);

    public static async Task<SowingWishes> LoadAsync(NurseryDbContext database, IReadOnlyCollection<BatchRow> rows, CancellationToken cancellation)
    {
        var ids = rows.Select(row => row.Batch.Id).ToList();
        var wanted = await database.Allocations.Where(row => ids.Contains(row.BatchId)).GroupBy(row => row.BatchId)
            .Select(group => new { group.Key, Plants = group.Sum(row => row.Plants) }).ToDictionaryAsync(row => row.Key, row => row.Plants, cancellation);
        return new SowingWishes(
            wanted,
            await HeatPlaces.LoadAsync(database, [.. rows.Select(row => row.TraySet.Id)], cancellation));
    }

    /// <summary>Null when no order names the batch.</summary>
    public SowingWish? Of(BatchRow row) => _wanted.TryGetValue(row.Batch.Id, out var wanted)
        ? new SowingWish(
            row.Crop, row.Lot, wanted, row.TraySet.CellsPerTray, row.Batch.SowOn, PlaceOf(row))
        : null;

    private (Id<Domain.Benches.Bench> Bench, int Space)? PlaceOf(BatchRow row) => _places.Of(row.TraySet.Id, row.Batch.SowOn);
}
