using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.Tasks;

namespace Nursery.Application.Rounds;

/// <summary>Makes the tasks of batches done, or not, as their ledger says; only rows that differ are written.</summary>
internal static class TaskClosing
{
    public static async Task RunAsync(
        NurseryDbContext database,
        IReadOnlyCollection<(Batch Batch, IReadOnlyDictionary<(TaskKind Kind, int Occurrence), (LocalDate Day, string Who)> Closings)> told,
        TimeProvider time,
        CancellationToken cancellation)
    {
        var ids = told.Select(row => row.Batch.Id).ToList();
        var known = (await database.Tasks.AsNoTracking().Where(task => ids.Contains(task.BatchId)).ToListAsync(cancellation))
            .ToLookup(task => task.BatchId);
        foreach (var (batch, closings) in told)
        {
            foreach (var task in known[batch.Id])
            {
                var (state, day, who) = After(task, closings);
                if ((state, day, who) != (task.State, task.DoneOn, task.DoneBy))
                {
                    database.Tasks.Attach(task);
                    (task.State, task.DoneOn, task.DoneBy) = (state, day, who);
                }
            }

            var there = known[batch.Id].Select(task => (task.Kind, task.Occurrence)).ToHashSet();
            database.Tasks.AddRange(closings.Where(closing => !there.Contains(closing.Key)).Select(closing => new RoundTask
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
        }

        await database.SaveChangesAsync(cancellation);

        // The task rules write by SQL: what is remembered here would be out of date.
        foreach (var row in database.ChangeTracker.Entries<RoundTask>().ToList())
        {
            row.State = EntityState.Detached;
        }
    }

    private static (TaskState State, LocalDate? Day, string? Who) After(
        RoundTask task, IReadOnlyDictionary<(TaskKind Kind, int Occurrence), (LocalDate Day, string Who)> closings) =>
        closings.TryGetValue((task.Kind, task.Occurrence), out var closing)
            ? (TaskState.Done, closing.Day, closing.Who)
            // Taken back: withdrawn until the rules, which run next, ask for it again.
            : task.State == TaskState.Done ? (TaskState.Withdrawn, null, null) : (task.State, task.DoneOn, task.DoneBy);
}
