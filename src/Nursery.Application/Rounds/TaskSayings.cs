using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Ledger;
using Nursery.Domain.Sites;
using Nursery.Domain.Tasks;

namespace Nursery.Application.Rounds;

/// <summary>What was said about tasks on a day and not taken back: done, or not yet.</summary>
internal sealed class TaskSayings
{
    private readonly Dictionary<(Guid, TaskKind, int), LedgerEntry> _done = [];
    private readonly Dictionary<(Guid, TaskKind, int), PutOff> _putOff = [];

    public static async Task<TaskSayings> LoadAsync(
        NurseryDbContext database, Id<Site> site, LocalDate day, CancellationToken cancellation)
    {
        var entries = await database.Ledger.AsNoTracking()
            .Where(entry => entry.SiteId == site
                && entry.Day == day
                && (entry.Kind == LedgerKind.Done || entry.Kind == LedgerKind.NotYet)
                && !database.Ledger.Any(undo => undo.UndoOf == entry.Id))
            .ToListAsync(cancellation);
        var said = new TaskSayings();
        foreach (var entry in LedgerOrder.Effective(entries))
        {
            switch (entry.Value)
            {
                case Done done:
                    // As in the fold: the first to report closes the task.
                    said._done.TryAdd((SubjectOf(entry), done.Task, done.Occurrence), entry);
                    break;
                case NotYet notYet:
                    said._putOff[(SubjectOf(entry), notYet.Task, notYet.Occurrence)] =
                        new PutOff(entry.Id.Value, notYet.Reason, entry.WhoName);
                    break;
            }
        }

        return said;
    }

    public LedgerEntry? DoneOf(RoundTask task) => _done.GetValueOrDefault(Key(task));

    public PutOff? PutOffOf(RoundTask task) => _putOff.GetValueOrDefault(Key(task));

    private static Guid SubjectOf(LedgerEntry entry) =>
        new TaskSubject(entry.SiteId, entry.BatchId, entry.BatchId is null ? entry.BenchId : null, entry.HouseId).Id;

    private static (Guid Subject, TaskKind Kind, int Occurrence) Key(RoundTask task) =>
        (task.SubjectId, task.Kind, task.Occurrence);
}
