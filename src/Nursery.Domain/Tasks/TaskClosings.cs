using NodaTime;
using Nursery.Domain.Benches;
using Nursery.Domain.Ledger;

namespace Nursery.Domain.Tasks;

/// <summary>Which tasks the ledger closes. Only a sowing closes the sow task: 'done' by a second person does not outlive a sowing that was
/// taken back, and what was done before the sowing that stands belongs to one that was taken back. Carrying trays to a bench without heat
/// closes the move off heat, to a hardening bench also the hardening off, however it was reported.</summary>
public static class TaskClosings
{
    /// <summary>The first closing of each task of a batch; a second person who reports the same task done changes nothing.</summary>
    public static IReadOnlyDictionary<(TaskKind Kind, int Occurrence), (LocalDate Day, string Who)> Of(
        IReadOnlyCollection<LedgerEntry> entries)
    {
        var closings = new Dictionary<(TaskKind, int), (LocalDate, string)>();
        var effective = LedgerOrder.Effective(entries);
        var sownOn = effective.FirstOrDefault(entry => entry.Value is Sown)?.Day;
        foreach (var entry in effective.Where(entry => entry.Day >= sownOn))
        {
            foreach (var task in ClosedBy(entry.Value))
            {
                closings.TryAdd(task, (entry.Day, entry.WhoName));
            }
        }

        return closings;
    }

    /// <summary>The first closing of each task of a bench or a house.</summary>
    public static IReadOnlyDictionary<(TaskKind Kind, int Occurrence), (LocalDate Day, string Who)> OfPlace(
        IReadOnlyCollection<LedgerEntry> entries)
    {
        var closings = new Dictionary<(TaskKind, int), (LocalDate, string)>();
        foreach (var entry in LedgerOrder.Effective(entries))
        {
            if (entry.Value is Done done)
            {
                closings.TryAdd((done.Task, done.Occurrence), (entry.Day, entry.WhoName));
            }
        }

        return closings;
    }

    /// <summary>Makes the stored tasks of one subject done or not done as the ledger has it.</summary>
    /// <returns>What the ledger closes and nobody had raised.</returns>
    public static IReadOnlyList<RoundTask> Apply(
        IReadOnlyDictionary<(TaskKind Kind, int Occurrence), (LocalDate Day, string Who)> closings,
        TaskSubject subject,
        IReadOnlyCollection<RoundTask> stored,
        Func<Id<RoundTask>> newId)
    {
        foreach (var task in stored)
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

        var known = stored.Select(task => (task.Kind, task.Occurrence)).ToHashSet();
        return
        [
            .. closings.Where(closing => !known.Contains(closing.Key)).Select(closing =>
            {
                var task = RoundTask.About(
                    subject, newId(), closing.Key.Kind, closing.Key.Occurrence, closing.Value.Day, "Reported before it was raised");
                (task.State, task.DoneOn, task.DoneBy) = (TaskState.Done, closing.Value.Day, closing.Value.Who);
                return task;
            }),
        ];
    }

    private static IEnumerable<(TaskKind Kind, int Occurrence)> ClosedBy(EntryValue value) => value switch
    {
        Sown => [(TaskKind.Sow, 1)],
        Done { Task: not TaskKind.Sow } done => [(done.Task, done.Occurrence)],
        Moved { BenchKind: BenchKind.Growing } => [(TaskKind.MoveOffHeat, 1)],
        Moved { BenchKind: BenchKind.Hardening } => [(TaskKind.MoveOffHeat, 1), (TaskKind.HardenOff, 1)],
        _ => [],
    };
}
