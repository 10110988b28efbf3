using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Tasks;

namespace Nursery.Application.Tasks;

/// <summary>What is done of one kind: the lowest occurrence that is not, and the last day one was.</summary>
internal sealed record ClosedKind(int Next, LocalDate? LastOn)
{
    public static ClosedKind None { get; } = new(1, null);
}

/// <summary>Which tasks of subjects are done.</summary>
internal static class ClosedTasks
{
    public static async Task<ILookup<Guid, (TaskKind Kind, ClosedKind Closed)>> LoadAsync(
        NurseryDbContext database, IReadOnlyCollection<Guid> subjects, CancellationToken cancellation)
    {
        var done = database.Tasks.AsNoTracking().Where(task => subjects.Contains(task.SubjectId) && task.State == TaskState.Done);
        var kinds = await (
            from task in done
            group task by new { task.SubjectId, task.Kind } into tasks
            select new
            {
                tasks.Key.SubjectId,
                tasks.Key.Kind,
                Count = tasks.Count(),
                Highest = tasks.Max(task => task.Occurrence),
                LastOn = tasks.Max(task => task.DoneOn),
            }).ToListAsync(cancellation);

        // Occurrences have a gap when an earlier one was taken back; only then are they looked at one by one.
        var gapped = kinds.Where(kind => kind.Count != kind.Highest).Select(kind => kind.SubjectId).Distinct().ToList();
        var taken = gapped.Count == 0
            ? []
            : (await done.Where(task => gapped.Contains(task.SubjectId))
                .Select(task => new { task.SubjectId, task.Kind, task.Occurrence }).ToListAsync(cancellation))
                .GroupBy(task => (task.SubjectId, task.Kind))
                .ToDictionary(task => task.Key, task => task.Select(row => row.Occurrence).ToHashSet());
        return kinds.ToLookup(
            kind => kind.SubjectId,
            kind => (kind.Kind, new ClosedKind(
                kind.Count == kind.Highest ? kind.Highest + 1 : LowestOpen(taken[(kind.SubjectId, kind.Kind)]), kind.LastOn)));
    }

    private static int LowestOpen(HashSet<int> taken)
    {
        var occurrence = 1;
        while (taken.Contains(occurrence))
        {
            occurrence++;
        }

        return occurrence;
    }
}
