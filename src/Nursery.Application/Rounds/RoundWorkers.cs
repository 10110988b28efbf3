using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Benches;
using Nursery.Domain.Ledger;
using Nursery.Domain.People;

namespace Nursery.Application.Rounds;

/// <summary>Who works on what, as their reports of the day tell it: nobody has to sign up for a bench.</summary>
internal static class RoundWorkers
{
    private static readonly LedgerKind[] Work =
    [
        LedgerKind.Done, LedgerKind.NotYet, LedgerKind.Count, LedgerKind.Surface, LedgerKind.Loss, LedgerKind.Moved, LedgerKind.Worked,
    ];

    /// <summary>Everyone but <paramref name="actor"/> with a report on the day, the latest first.</summary>
    public static async Task<IReadOnlyList<RoundWorker>> LoadAsync(
        NurseryDbContext database,
        Actor actor,
        LocalDate day,
        IReadOnlyList<TaskItem> tasks,
        Func<Id<Bench>, (string House, string Bench)?> benchOf,
        CancellationToken cancellation)
    {
        var reports = await database.Ledger.AsNoTracking()
            .Where(entry => entry.SiteId == actor.SiteId && entry.Day == day && entry.CausedBy == null
                && Work.Contains(entry.Kind) && entry.WhoId != actor.Id)
            .Select(entry => new { entry.WhoId, entry.WhoName, entry.BatchId, entry.BenchId, entry.HappenedAt })
            .ToListAsync(cancellation);
        var placeOfBatch = tasks.Where(task => task.BenchCode is not null && task.BatchId is not null)
            .DistinctBy(task => task.BatchId).ToDictionary(task => task.BatchId!.Value, task => (task.House!, task.BenchCode!));
        return
        [
            .. reports.GroupBy(report => report.WhoId).Select(person =>
            {
                var last = person.MaxBy(report => report.HappenedAt)!;
                (string House, string Bench)? place = last.BenchId is { } bench ? benchOf(bench)
                    : last.BatchId is { } batch && placeOfBatch.TryGetValue(batch.Value, out var stands) ? stands : null;
                return new RoundWorker(last.WhoName, place?.House, place?.Bench, last.HappenedAt, person.Count());
            }).OrderByDescending(worker => worker.At).ThenBy(worker => worker.Name, StringComparer.Ordinal),
        ];
    }
}
