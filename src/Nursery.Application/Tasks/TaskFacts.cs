using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.Tasks;

namespace Nursery.Application.Tasks;

/// <summary>Gathers what the task rules look at, for many batches in a few queries.</summary>
internal static class TaskFacts
{
    public static async Task<IReadOnlyList<BatchFacts>> LoadAsync(
        NurseryDbContext database, IReadOnlyCollection<Batch> batches, LocalDate today, CancellationToken cancellation)
    {
        var ids = batches.Select(batch => batch.Id).ToList();
        var varietyIds = batches.Select(batch => batch.VarietyId).Distinct().ToList();
        var lotIds = batches.Select(batch => batch.State.LotId ?? batch.LotId).OfType<Id<Domain.SeedLots.SeedLot>>().Distinct().ToList();
        var crops = await (
            from variety in database.Varieties
            join crop in database.Crops on variety.CropId equals crop.Id
            where varietyIds.Contains(variety.Id)
            select new { variety.Id, crop }).AsNoTracking().ToDictionaryAsync(row => row.Id, row => row.crop, cancellation);
        var germination = await database.SeedLots.Where(lot => lotIds.Contains(lot.Id))
            .ToDictionaryAsync(lot => lot.Id, lot => lot.LabelGermination, cancellation);
        var trays = (await (
            from share in database.TrayShares
            join traySet in database.TraySets on share.TraySetId equals traySet.Id
            where ids.Contains(share.BatchId)
            select new { share, traySet }).AsNoTracking().ToListAsync(cancellation)).ToLookup(row => row.share.BatchId);
        var wanted = await (
            from allocation in database.Allocations
            join line in database.OrderLines on allocation.OrderLineId equals line.Id
            from delivery in database.OrderDeliveries.Where(row => row.Id == allocation.DeliveryId).DefaultIfEmpty()
            where ids.Contains(allocation.BatchId)
            group delivery == null ? line.ReadyOn : delivery.ReadyOn by allocation.BatchId into days
            select new { days.Key, Earliest = days.Min() }).ToDictionaryAsync(row => row.Key, row => row.Earliest, cancellation);
        var closed = await ClosedTasks.LoadAsync(database, ids.ConvertAll(id => id.Value), cancellation);
        var marks = await SurfaceMarks.OfBatchesAsync(database, batches, today, cancellation);
        var care = await CareGrounds.LoadAsync(
            database, batches, trays.ToDictionary(rows => rows.Key, rows => rows.First().traySet.CellsPerTray), marks, today, cancellation);
        return
        [
            .. batches.Select(batch => new BatchFacts(
                batch,
                crops[batch.VarietyId],
                trays[batch.Id].Sum(row => row.traySet.Trays),
                (batch.State.LotId ?? batch.LotId) is { } lot ? germination[lot] : null,
                wanted.TryGetValue(batch.Id, out var day) ? day : null,
                closed[batch.Id.Value].ToDictionary(kind => kind.Kind, kind => kind.Closed.Next),
                today,
                trays[batch.Id].Select(row => row.share.Part(row.traySet) is { } part ? $"{part} of {row.traySet.Code}" : null).FirstOrDefault(),
                SurfaceMarks.Last(marks.GetValueOrDefault(batch.Id) ?? [], today),
                care.GetValueOrDefault(batch.Id))),
        ];
    }
}
