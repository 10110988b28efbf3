using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Batches;
using Nursery.Application.Germination;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.Benches;
using Nursery.Domain.Ledger;
using Nursery.Domain.SeedLots;
using Nursery.Domain.Sites;
using Nursery.Domain.TraySets;

namespace Nursery.Application.Forecasts;

/// <summary>Gathers what forecasts need, in the same few queries however many batches there are.</summary>
internal static class ForecastGrounds
{
    public static async Task<IReadOnlyList<ForecastGround>> LoadAsync(
        NurseryDbContext database, Site site, IQueryable<BatchRow> chosen, Instant now, CancellationToken cancellation)
    {
        var rows = (await chosen.AsNoTracking().ToListAsync(cancellation)).DistinctBy(row => row.Batch.Id).ToList();
        if (rows.Count == 0)
        {
            return [];
        }

        var ids = rows.ConvertAll(row => row.Batch.Id);
        var lots = await LotsAsync(database, rows, cancellation);
        var ordered = await OrderedAsync(database, ids, cancellation);
        var undone = await CountedBatches.UndoneAsync(database, site.Id, cancellation);
        var counts = await CountsAsync(database, ids, undone, cancellation);
        var places = await PlacesAsync(database, rows.ConvertAll(row => row.TraySet.Id), undone, cancellation);
        var planned = await PlannedAsync(database, rows, cancellation);
        var heat = await HeatRecords.LoadAsync(database, site, now, cancellation);
        var houses = await database.Houses.Where(house => house.SiteId == site.Id).ToDictionaryAsync(house => house.Id, house => house.Code, cancellation);
        return [.. rows.Select(GroundOf)];

        ForecastGround GroundOf(BatchRow row)
        {
            var (batch, stood) = (row.Batch, places[row.TraySet.Id].ToList());
            var at = stood.Count > 0 ? stood : [.. planned[row.TraySet.Id]];
            var bench = at.Count > 0 ? heat.BenchOf(at[0].Bench) : null;
            return new ForecastGround(
                row,
                (batch.State.LotId ?? batch.LotId) is { } lot ? lots.GetValueOrDefault(lot) : null,
                [.. ordered[batch.Id]],
                heat.Of(row.Crop, batch.State.SownOn ?? batch.SowOn, at),
                CountedDay.Of(counts[batch.Id], batch),
                bench is null ? null : houses[bench.HouseId]);
        }
    }

    private static async Task<Dictionary<Id<SeedLot>, SeedLot>> LotsAsync(
        NurseryDbContext database, List<BatchRow> rows, CancellationToken cancellation)
    {
        var ids = rows.Select(row => row.Batch.State.LotId ?? row.Batch.LotId).OfType<Id<SeedLot>>().Distinct().ToList();
        return await database.SeedLots.AsNoTracking().Where(lot => ids.Contains(lot.Id)).ToDictionaryAsync(lot => lot.Id, cancellation);
    }

    private static async Task<ILookup<Id<Batch>, OrderedPlants>> OrderedAsync(
        NurseryDbContext database, List<Id<Batch>> ids, CancellationToken cancellation)
    {
        var rows = await (
            from allocation in database.Allocations
            join line in database.OrderLines on allocation.OrderLineId equals line.Id
            join order in database.Orders on line.OrderId equals order.Id
            join customer in database.Customers on order.CustomerId equals customer.Id
            from delivery in database.OrderDeliveries.Where(row => row.Id == allocation.DeliveryId).DefaultIfEmpty()
            where ids.Contains(allocation.BatchId)
            select new
            {
                allocation.BatchId,
                LineId = line.Id,
                allocation.DeliveryId,
                order.Number,
                customer.Name,
                allocation.Plants,
                DueOn = delivery == null ? line.ReadyOn : delivery.ReadyOn,
            }).AsNoTracking().ToListAsync(cancellation);
        return rows.OrderBy(row => row.DueOn).ThenBy(row => row.Number, StringComparer.Ordinal).ToLookup(
            row => row.BatchId,
            row => new OrderedPlants(row.LineId.Value, row.DeliveryId?.Value, row.Number, row.Name, row.Plants, row.DueOn));
    }

    private static async Task<ILookup<Id<Batch>, LedgerEntry>> CountsAsync(
        NurseryDbContext database, List<Id<Batch>> ids, HashSet<Id<LedgerEntry>> undone, CancellationToken cancellation)
    {
        var entries = await database.Ledger.AsNoTracking()
            .Where(entry => entry.BatchId != null && ids.Contains(entry.BatchId.Value)
                && (entry.Kind == LedgerKind.Count || entry.Kind == LedgerKind.NotYet))
            .ToListAsync(cancellation);
        return Standing(entries, undone).ToLookup(entry => entry.BatchId!.Value);
    }

    /// <summary>Where the first tray of each set was put, in order.</summary>
    private static async Task<ILookup<Id<TraySet>, (LocalDate Day, Id<Bench> Bench, int? Space)>> PlacesAsync(
        NurseryDbContext database, List<Id<TraySet>> traySets, HashSet<Id<LedgerEntry>> undone, CancellationToken cancellation)
    {
        var entries = await database.Ledger.AsNoTracking()
            .Where(entry => entry.TraySetId != null && traySets.Contains(entry.TraySetId.Value)
                && (entry.Kind == LedgerKind.Placed || entry.Kind == LedgerKind.Moved))
            .ToListAsync(cancellation);
        return Standing(entries, undone)
            .Where(entry => entry.Value is Placement { Trays.First: 1 })
            .ToLookup(entry => entry.TraySetId!.Value, entry => (entry.Day, ((Placement)entry.Value).Bench, ((Placement)entry.Value).FirstSpace));
    }

    /// <summary>Where the plan has what is not sown yet.</summary>
    private static async Task<ILookup<Id<TraySet>, (LocalDate Day, Id<Bench> Bench, int? Space)>> PlannedAsync(
        NurseryDbContext database, List<BatchRow> rows, CancellationToken cancellation)
    {
        var sets = rows.Where(row => row.Batch.State.SownOn is null).Select(row => row.TraySet.Id).ToList();
        var held = sets.Count == 0 ? [] : await database.Reservations.AsNoTracking()
            .Where(row => sets.Contains(row.TraySetId)).ToListAsync(cancellation);
        return held.Where(row => row.Trays.First == 1).OrderBy(row => row.Days.Start)
            .ToLookup(row => row.TraySetId, row => (row.Days.Start, row.BenchId, (int?)row.Spaces.First));
    }

    private static IEnumerable<LedgerEntry> Standing(List<LedgerEntry> entries, HashSet<Id<LedgerEntry>> undone) => entries
        .Where(entry => !undone.Contains(entry.Id) && !(entry.CausedBy is { } cause && undone.Contains(cause)))
        .OrderBy(entry => entry.EffectiveAt).ThenBy(entry => entry.Id);
}
