using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.Tasks;

namespace Nursery.Application.Tasks;

/// <summary>Makes the task rows of batches what the rules ask for. Whoever calls holds the rows of the batches locked, so the
/// rows come out the same however often, late or side by side this runs.</summary>
internal static class TaskWriting
{
    public static async Task SyncAsync(
        NurseryDbContext database, IReadOnlyCollection<Batch> batches, LocalDate today, TimeProvider time, CancellationToken cancellation)
    {
        if (batches.Count == 0)
        {
            return;
        }

        var facts = await TaskFacts.LoadAsync(database, batches, today, cancellation);
        var wanted = facts
            .SelectMany(fact => TaskRules.Wanted(fact).Select(task => (fact.Batch, Task: task)))
            .ToList();
        await WithdrawAsync(database, batches, wanted, cancellation);
        await UpsertAsync(database, wanted, time, cancellation);
    }

    /// <summary>Open tasks that no rule asks for any more. First, so that the one open row a kind may have is free again.</summary>
    private static Task<int> WithdrawAsync(
        NurseryDbContext database,
        IReadOnlyCollection<Batch> batches,
        List<(Batch Batch, DueTask Task)> wanted,
        CancellationToken cancellation)
    {
        var ids = batches.Select(batch => batch.Id.Value).ToArray();
        var keptBatches = wanted.Select(row => row.Batch.Id.Value).ToArray();
        var keptKinds = wanted.Select(row => row.Task.Kind.ToString()).ToArray();
        var keptOccurrences = wanted.Select(row => row.Task.Occurrence).ToArray();
        return database.Database.ExecuteSqlAsync($"""
            UPDATE tasks SET state = 'Withdrawn'
            WHERE batch_id = ANY ({ids}) AND state = 'Open'
              AND NOT EXISTS (
                SELECT FROM unnest({keptBatches}, {keptKinds}, {keptOccurrences}) AS kept (batch_id, kind, occurrence)
                WHERE kept.batch_id = tasks.batch_id AND kept.kind = tasks.kind AND kept.occurrence = tasks.occurrence)
            """, cancellation);
    }

    private static Task<int> UpsertAsync(
        NurseryDbContext database, List<(Batch Batch, DueTask Task)> wanted, TimeProvider time, CancellationToken cancellation)
    {
        // In key order, so that two writers lock rows in the same order.
        var rows = wanted.OrderBy(row => row.Batch.Id).ThenBy(row => row.Task.Kind).ToList();
        var ids = rows.Select(_ => NewId.Of<RoundTask>(time).Value).ToArray();
        var sites = rows.Select(row => row.Batch.SiteId.Value).ToArray();
        var kinds = rows.Select(row => row.Task.Kind.ToString()).ToArray();
        var batches = rows.Select(row => row.Batch.Id.Value).ToArray();
        var occurrences = rows.Select(row => row.Task.Occurrence).ToArray();
        var days = rows.Select(row => row.Task.DueOn).ToArray();
        var reasons = rows.Select(row => row.Task.Why).ToArray();
        return database.Database.ExecuteSqlAsync($"""
            INSERT INTO tasks (id, site_id, kind, batch_id, occurrence, due_on, why, state)
            SELECT id, site_id, kind, batch_id, occurrence, due_on, why, 'Open'
            FROM unnest({ids}, {sites}, {kinds}, {batches}, {occurrences}, {days}, {reasons})
              AS due (id, site_id, kind, batch_id, occurrence, due_on, why)
            ON CONFLICT (kind, batch_id, occurrence) DO UPDATE
            SET due_on = EXCLUDED.due_on, why = EXCLUDED.why, state = 'Open'
            WHERE tasks.state <> 'Done'
              AND (tasks.due_on, tasks.why, tasks.state) IS DISTINCT FROM (EXCLUDED.due_on, EXCLUDED.why, 'Open')
            """, cancellation);
    }
}
