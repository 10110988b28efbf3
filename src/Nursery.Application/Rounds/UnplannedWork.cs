using Microsoft.EntityFrameworkCore;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.Benches;
using Nursery.Domain.Ledger;
using Nursery.Domain.Refusals;
using Nursery.Domain.Tasks;
using Nursery.Domain.TraySets;

namespace Nursery.Application.Rounds;

/// <summary>Work that was not on the list. Said of a bench, it is said of every batch that stands on it.</summary>
internal static class UnplannedWork
{
    /// <summary>Kinds with an entry or a task of their own: said otherwise, seed, place or order would not follow.</summary>
    private static readonly TaskKind[] SaidOtherwise =
    [
        TaskKind.Sow, TaskKind.MoveOffHeat, TaskKind.HardenOff, TaskKind.HandOver, TaskKind.ClearBench, TaskKind.Look, TaskKind.Scout,
    ];

    public static void Check(WorkDone work)
    {
        var checks = new FieldChecks();
        if (work.Task is { } task && SaidOtherwise.Contains(task))
        {
            checks.Fail("task", task.ToString(), "a kind of care; sowing, moving and handing over are reported by their task or as moved");
        }

        if (work.Task is null || work.Words is not null)
        {
            checks.Text("words", work.Words, 200);
        }

        if (work.BatchId is null == work.BenchCode is null)
        {
            checks.Fail("batchId", work.BatchId?.ToString(), "either batchId or benchCode");
        }

        checks.Done();
    }

    /// <summary>Adds the entry of the bench and one for each batch there; the batches are locked and must be folded anew.</summary>
    public static async Task<Affected> OnBenchAsync(
        NurseryDbContext database, EntryDraft draft, Bench bench, Worked worked, CancellationToken cancellation)
    {
        database.Ledger.Add(draft.Entry(worked, bench: bench.Id));
        var shares = await (
            from standing in database.Standings
            join share in database.TrayShares on standing.TraySetId equals share.TraySetId
            where standing.BenchId == bench.Id
            select new { share.BatchId, share.TraySetId }).Distinct().ToListAsync(cancellation);
        var batches = await database.LockBatchesAsync([.. shares.Select(share => share.BatchId).Distinct()], cancellation);
        foreach (var batch in batches.Where(batch => batch.State.SownOn is not null))
        {
            var traySet = shares.First(share => share.BatchId == batch.Id).TraySetId;
            database.Ledger.Add(draft.Consequence(worked, batch.Id, traySet, bench.Id));
        }

        return new Affected(batches, []);
    }

    /// <summary>The batches an entry had consequences for; their rows are locked.</summary>
    public static async Task<Affected> FollowersAsync(
        NurseryDbContext database, Id<LedgerEntry> cause, CancellationToken cancellation)
    {
        var ids = await database.Ledger.Where(entry => entry.CausedBy == cause && entry.BatchId != null)
            .Select(entry => entry.BatchId!.Value).Distinct().ToListAsync(cancellation);
        return new Affected(await database.LockBatchesAsync(ids, cancellation), Array.Empty<Id<TraySet>>());
    }
}
