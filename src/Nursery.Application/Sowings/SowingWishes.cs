using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Agronomy.Forecast;
using Nursery.Application.Batches;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Batches;

namespace Nursery.Application.Sowings;

/// <summary>What the orders of some batches want of them, and by when.</summary>
internal sealed class SowingWishes
{
    private readonly Dictionary<Id<Batch>, (int Plants, LocalDate DueOn)> _wanted;
    private readonly HeatPlaces _places;

    private SowingWishes(Dictionary<Id<Batch>, (int Plants, LocalDate DueOn)> wanted, HeatPlaces places) => (_wanted, _places) = (wanted, places);

    public static async Task<SowingWishes> LoadAsync(NurseryDbContext database, IReadOnlyCollection<BatchRow> rows, CancellationToken cancellation)
    {
        var ids = rows.Select(row => row.Batch.Id).ToList();
        var wanted = await (
            from allocation in database.Allocations
            join line in database.OrderLines on allocation.OrderLineId equals line.Id
            from delivery in database.OrderDeliveries.Where(row => row.Id == allocation.DeliveryId).DefaultIfEmpty()
            where ids.Contains(allocation.BatchId)
            select new { allocation.BatchId, allocation.Plants, DueOn = delivery == null ? line.ReadyOn : delivery.ReadyOn }).ToListAsync(cancellation);
        return new SowingWishes(
            wanted.GroupBy(row => row.BatchId).ToDictionary(
                group => group.Key, group => (group.Sum(row => row.Plants), group.Min(row => row.DueOn))),
            await HeatPlaces.LoadAsync(database, [.. rows.Select(row => row.TraySet.Id)], cancellation));
    }

    /// <summary>Null when no order names the batch.</summary>
    public SowingWish? Of(BatchRow row) => _wanted.TryGetValue(row.Batch.Id, out var wanted)
        ? new SowingWish(
            row.Crop, row.Variety, row.Lot, wanted.Plants, row.TraySet.CellsPerTray, row.Batch.SowOn, PlaceOf(row))
        : null;

    public (Id<Domain.Benches.Bench> Bench, int Space)? PlaceOf(BatchRow row) => _places.Of(row.TraySet.Id, row.Batch.SowOn);

    /// <summary>Null where the crop would not emerge at all.</summary>
    public ResowRoom? ResowOf(BatchRow row, SowingCase sowing)
    {
        if (PlannedHeat.EmergenceDays(row.Crop, sowing.Spot.Media) is not { } half || half > 366)
        {
            return null;
        }

        var slack = Period.DaysBetween(row.Batch.SowOn, _wanted[row.Batch.Id].DueOn) - PlannedHeat.DaysToReady(row.Crop, sowing.Spot);
        return new ResowRoom(ShortStand.KnownFrom(half), slack, ShortStand.CanBeKnownInTime(half, slack));
    }
}
