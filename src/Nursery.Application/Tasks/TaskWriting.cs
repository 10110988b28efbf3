using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.Tasks;

namespace Nursery.Application.Tasks;

/// <summary>Makes the open tasks of subjects what the rules ask for, and writes nothing when they are. Whoever calls holds the
/// subjects locked, so the rows come out the same however often, late or side by side this runs.</summary>
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
            .SelectMany(fact => TaskRules.Wanted(fact).Select(task => new WantedTask(TaskSubject.Of(fact.Batch), task)))
            .ToList();
        await WriteAsync(database, [.. batches.Select(batch => batch.Id.Value)], wanted, time, cancellation);
    }

    /// <param name="database">The open transaction.</param>
    /// <param name="subjects">Everything whose tasks these are, also what nothing is wanted of.</param>
    /// <param name="wanted">What should be open of them.</param>
    /// <param name="time">Makes ids.</param>
    /// <param name="cancellation">Cancels.</param>
    public static async Task WriteAsync(
        NurseryDbContext database, Guid[] subjects, IReadOnlyCollection<WantedTask> wanted, TimeProvider time, CancellationToken cancellation)
    {
        var open = await database.Tasks.AsNoTracking()
            .Where(task => subjects.Contains(task.SubjectId) && task.State == TaskState.Open)
            .Select(task => new OpenTask(task.Id, task.SubjectId, task.Kind, task.Occurrence, task.DueOn, task.Why))
            .ToListAsync(cancellation);
        var changes = TaskChanges.Between(open, wanted);
        if (changes.Withdrawn.Count > 0)
        {
            // First, so that the one open row a kind may have is free again.
            await database.Tasks.Where(task => changes.Withdrawn.Contains(task.Id) && task.State == TaskState.Open)
                .ExecuteUpdateAsync(row => row.SetProperty(task => task.State, TaskState.Withdrawn), cancellation);
        }

        if (changes.Raised.Count > 0)
        {
            await RaiseAsync(database, changes.Raised, time, cancellation);
        }
    }

    private static Task<int> RaiseAsync(
        NurseryDbContext database, IReadOnlyList<WantedTask> raised, TimeProvider time, CancellationToken cancellation)
    {
        // In key order, so that two writers lock rows in the same order.
        var rows = raised.OrderBy(row => row.Subject.Id).ThenBy(row => row.Task.Kind).ToList();
        var ids = rows.Select(_ => NewId.Of<RoundTask>(time).Value).ToArray();
        var sites = rows.Select(row => row.Subject.Site.Value).ToArray();
        var kinds = rows.Select(row => row.Task.Kind.ToString()).ToArray();
        var batches = rows.Select(row => row.Subject.Batch?.Value).ToArray();
        var benches = rows.Select(row => row.Subject.Bench?.Value).ToArray();
        var houses = rows.Select(row => row.Subject.House?.Value).ToArray();
        var occurrences = rows.Select(row => row.Task.Occurrence).ToArray();
        var days = rows.Select(row => row.Task.DueOn).ToArray();
        var reasons = rows.Select(row => row.Task.Why).ToArray();
        return database.Database.ExecuteSqlAsync($"""
            INSERT INTO tasks (id, site_id, kind, batch_id, bench_id, house_id, occurrence, due_on, why, state)
            SELECT id, site_id, kind, batch_id, bench_id, house_id, occurrence, due_on, why, 'Open'
            FROM unnest({ids}, {sites}, {kinds}, {batches}, {benches}, {houses}, {occurrences}, {days}, {reasons})
              AS due (id, site_id, kind, batch_id, bench_id, house_id, occurrence, due_on, why)
            ON CONFLICT (kind, subject_id, occurrence) DO UPDATE
            SET due_on = EXCLUDED.due_on, why = EXCLUDED.why, state = 'Open'
            WHERE tasks.state <> 'Done'
            """, cancellation);
    }
}
