using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Tasks;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.Benches;
using Nursery.Domain.SeedLots;
using Nursery.Domain.Tasks;
using Nursery.Domain.TraySets;

namespace Nursery.Application.Rounds;

/// <summary>Makes everything stored about batches what their ledger says: state, stock of their lots, standing, tasks.
/// New entries and a rebuild go the same way. A few queries in all, however many batches.</summary>
internal static class BatchRefold
{
    public static async Task RunAsync(
        NurseryDbContext database,
        IReadOnlyCollection<Batch> lockedBatches,
        IReadOnlyCollection<Id<TraySet>> traySets,
        LocalDate today,
        TimeProvider time,
        CancellationToken cancellation)
    {
        var benches = await FoldAsync(database, lockedBatches, traySets, today, time, cancellation);
        await PlaceTasks.SyncAsync(database, benches, today, time, cancellation);
    }

    /// <summary>Without the tasks of benches and houses.</summary>
    /// <returns>The benches on which something stands that did not, or no longer.</returns>
    public static async Task<IReadOnlyCollection<Id<Bench>>> FoldAsync(
        NurseryDbContext database,
        IReadOnlyCollection<Batch> lockedBatches,
        IReadOnlyCollection<Id<TraySet>> traySets,
        LocalDate today,
        TimeProvider time,
        CancellationToken cancellation)
    {
        if (lockedBatches.Count == 0 && traySets.Count == 0)
        {
            return [];
        }

        var ledger = await BatchLedger.LoadAsync(
            database, [.. lockedBatches.Select(batch => batch.Id)], traySets, cancellation);
        var told = lockedBatches.Select(batch => (Batch: batch, Entries: ledger.Of(batch.Id))).ToList();
        var taken = new Dictionary<Id<SeedLot>, int>();
        foreach (var (batch, entries) in told)
        {
            var before = batch.State;
            batch.State = BatchStory.Fold(entries);
            Add(taken, before.LotId, -before.SeedsSown);
            Add(taken, batch.State.LotId, batch.State.SeedsSown);
        }

        await MoveSeedAsync(database, taken, cancellation);
        await database.SaveChangesAsync(cancellation);
        await TaskClosing.RunAsync(
            database, [.. told.Select(row => (TaskSubject.Of(row.Batch), TaskClosings.Of(row.Entries)))], time, cancellation);
        var benches = await StandingRefold.RunAsync(database, traySets, ledger, cancellation);
        await TaskWriting.SyncAsync(database, lockedBatches, today, time, cancellation);
        return benches;
    }

    private static void Add(Dictionary<Id<SeedLot>, int> taken, Id<SeedLot>? lot, int seeds)
    {
        if (lot is { } id)
        {
            taken[id] = taken.GetValueOrDefault(id) + seeds;
        }
    }

    /// <summary>The stock moves by what the fold says was sown now and was not before, and the other way round.</summary>
    private static async Task MoveSeedAsync(NurseryDbContext database, Dictionary<Id<SeedLot>, int> taken, CancellationToken cancellation)
    {
        foreach (var (lot, seeds) in taken.Where(lot => lot.Value != 0).OrderBy(lot => lot.Key))
        {
            await database.SeedLots.Where(row => row.Id == lot)
                .ExecuteUpdateAsync(row => row.SetProperty(x => x.StockSeeds, x => x.StockSeeds - seeds), cancellation);
        }
    }
}
