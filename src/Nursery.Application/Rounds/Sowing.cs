using Microsoft.EntityFrameworkCore;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.Ledger;
using Nursery.Domain.Refusals;
using Nursery.Domain.SeedLots;
using Nursery.Domain.TraySets;

namespace Nursery.Application.Rounds;

internal static class Sowing
{
    /// <summary>Adds the sown entry, and the trays' first standing where the plan has them that day.</summary>
    /// <exception cref="StockTooLow">The lot has not seeds enough.</exception>
    public static async Task AddAsync(
        NurseryDbContext database,
        EntryDraft draft,
        Batch batch,
        TraySet traySet,
        Id<SeedLot> lotId,
        bool asConsequence,
        CancellationToken cancellation)
    {
        var seeds = batch.Cells * batch.SeedsPerCell;
        var lot = (await database.SeedLots
            .FromSql($"SELECT * FROM seed_lots WHERE id = {lotId.Value} FOR UPDATE")
            .AsNoTracking().ToListAsync(cancellation)).Single();
        if (lot.StockSeeds < seeds)
        {
            throw new StockTooLow(lot.Code, lot.StockSeeds, seeds);
        }

        var sown = new Sown(lot.Id, seeds, batch.Cells, batch.SeedsPerCell);
        database.Ledger.Add(asConsequence
            ? draft.Consequence(sown, batch.Id, traySet.Id, lot: lot.Id)
            : draft.Entry(sown, batch.Id, traySet.Id, lot: lot.Id));
        await PlaceAsync(database, draft, batch, traySet, cancellation);
    }

    private static async Task PlaceAsync(
        NurseryDbContext database, EntryDraft draft, Batch batch, TraySet traySet, CancellationToken cancellation)
    {
        var plans = await (
            from reservation in database.Reservations
            join bench in database.Benches on reservation.BenchId equals bench.Id
            where reservation.TraySetId == traySet.Id
            select new { reservation, bench.Kind }).ToListAsync(cancellation);
        var put = new List<SpaceRun>();
        foreach (var plan in plans.Where(plan => plan.reservation.Days.Contains(draft.Day))
            .OrderBy(plan => plan.Kind).ThenBy(plan => plan.reservation.Id))
        {
            // The plan may hold two places for the same trays; sown trays go on the heat first, and stand once.
            if (put.Any(trays => trays.Overlaps(plan.reservation.Trays)))
            {
                continue;
            }

            put.Add(plan.reservation.Trays);
            var placed = new Placed(
                plan.reservation.Trays, plan.reservation.BenchId, plan.Kind, plan.reservation.Spaces.First);
            database.Ledger.Add(draft.Consequence(placed, batch.Id, traySet.Id, plan.reservation.BenchId));
        }
    }
}
