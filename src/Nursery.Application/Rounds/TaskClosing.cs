using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Tasks;

namespace Nursery.Application.Rounds;

/// <summary>Makes the tasks of batches, benches and houses done, or not, as their ledger says; only rows that differ are written.</summary>
internal static class TaskClosing
{
    public static async Task RunAsync(
        NurseryDbContext database,
        IReadOnlyCollection<(TaskSubject Subject, IReadOnlyDictionary<(TaskKind Kind, int Occurrence), (LocalDate Day, string Who)> Closings)> told,
        TimeProvider time,
        CancellationToken cancellation)
    {
        var ids = told.Select(row => row.Subject.Id).ToList();
        var known = (await database.Tasks.AsNoTracking().Where(task => ids.Contains(task.SubjectId)).ToListAsync(cancellation))
            .ToLookup(task => task.SubjectId);
        foreach (var (subject, closings) in told)
        {
            var stored = known[subject.Id].ToList();
            var before = stored.ConvertAll(Said);
            database.Tasks.AddRange(TaskClosings.Apply(closings, subject, stored, () => NewId.Of<RoundTask>(time)));
            foreach (var (task, _) in stored.Zip(before).Where(row => Said(row.First) != row.Second))
            {
                var row = database.Tasks.Attach(task);
                row.Property(x => x.State).IsModified = true;
                row.Property(x => x.DoneOn).IsModified = true;
                row.Property(x => x.DoneBy).IsModified = true;
            }
        }

        await database.SaveChangesAsync(cancellation);

        // The task rules write by SQL: what is remembered here would be out of date.
        foreach (var row in database.ChangeTracker.Entries<RoundTask>().ToList())
        {
            row.State = EntityState.Detached;
        }
    }

    private static (TaskState State, LocalDate? Day, string? Who) Said(RoundTask task) => (task.State, task.DoneOn, task.DoneBy);
}
