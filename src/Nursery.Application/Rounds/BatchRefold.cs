using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Tasks;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.Ledger;
using Nursery.Domain.SeedLots;
using Nursery.Domain.Tasks;
using Nursery.Domain.TraySets;

namespace Nursery.Application.Rounds;

/// <summary>Makes everything stored about batches what their ledger says: state, stock of their lots, standing, tasks.
/// New entries and a rebuild go the same way.</summary>
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
        foreach (var batch in lockedBatches)
        {
            var entries = await BatchEntries.LoadAsync(database, [batch.Id], cancellation);
            var before = batch.State;
            batch.State = BatchStory.Fold(entries);
            await ReturnSeedsAsync(database, before, batch.State, cancellation);
            await database.SaveChangesAsync(cancellation);
            await CloseTasksAsync(database, batch, TaskClosings.Of(entries), time, cancellation);
        }

        foreach (var traySet in traySets)
        {
            await StandAsync(database, traySet, cancellation);
        }

        await database.SaveChangesAsync(cancellation);
        await TaskWriting.SyncAsync(database, lockedBatches, today, time, cancellation);
    }

    /// <summary>The stock moves by what the fold says was sown now and was not before, and the other way round.</summary>
    private static async Task ReturnSeedsAsync(
        NurseryDbContext database, BatchState before, BatchState after, CancellationToken cancellation)
    {
        if (before.LotId == after.LotId && before.SeedsSown == after.SeedsSown)
        {
            return;
        }

        await TakeAsync(database, before.LotId, -before.SeedsSown, cancellation);
        await TakeAsync(database, after.LotId, after.SeedsSown, cancellation);
    }

    private static async Task TakeAsync(NurseryDbContext database, Id<SeedLot>? lot, int seeds, CancellationToken cancellation)
    {
        if (lot is { } id && seeds != 0)
        {
            await database.SeedLots.Where(row => row.Id == id)
                .ExecuteUpdateAsync(row => row.SetProperty(x => x.StockSeeds, x => x.StockSeeds - seeds), cancellation);
        }
    }

    private static async Task CloseTasksAsync(
        NurseryDbContext database,
        Batch batch,
        IReadOnlyDictionary<(TaskKind Kind, int Occurrence), (LocalDate Day, string Who)> closings,
        TimeProvider time,
        CancellationToken cancellation)
    {
        var rows = await database.Tasks.Where(task => task.BatchId == batch.Id).ToListAsync(cancellation);
        foreach (var task in rows)
        {
            if (closings.TryGetValue((task.Kind, task.Occurrence), out var closing))
            {
                (task.State, task.DoneOn, task.DoneBy) = (TaskState.Done, closing.Day, closing.Who);
            }
            else if (task.State == TaskState.Done)
            {
                // Taken back. Withdrawn until the rules, which run next, ask for it again.
                (task.State, task.DoneOn, task.DoneBy) = (TaskState.Withdrawn, null, null);
            }
        }

        var known = rows.Select(task => (task.Kind, task.Occurrence)).ToHashSet();
        database.Tasks.AddRange(closings.Where(closing => !known.Contains(closing.Key)).Select(closing => new RoundTask
        {
            Id = NewId.Of<RoundTask>(time),
            SiteId = batch.SiteId,
            Kind = closing.Key.Kind,
            BatchId = batch.Id,
            Occurrence = closing.Key.Occurrence,
            DueOn = closing.Value.Day,
            Why = "Reported before it was raised",
            State = TaskState.Done,
            DoneOn = closing.Value.Day,
            DoneBy = closing.Value.Who,
        }));
        await database.SaveChangesAsync(cancellation);
    }

    private static async Task StandAsync(NurseryDbContext database, Id<TraySet> traySetId, CancellationToken cancellation)
    {
        var traySet = await database.TraySets.SingleAsync(set => set.Id == traySetId, cancellation);
        var entries = await BatchEntries.OfTraySetAsync(database, traySetId, cancellation);
        var gone = await (
            from share in database.TrayShares
            join batch in database.Batches on share.BatchId equals batch.Id
            where share.TraySetId == traySetId
            select batch.State.Stage).AllAsync(
                stage => stage == BatchStage.HandedOver || stage == BatchStage.Discarded || stage == BatchStage.Planned, cancellation);
        await database.Standings.Where(row => row.TraySetId == traySetId).ExecuteDeleteAsync(cancellation);
        if (!gone)
        {
            database.Standings.AddRange(TraySetStory.Fold(traySet, entries));
        }
    }
}
