using NodaTime;
using Nursery.Domain.Benches;
using Nursery.Domain.Ledger;

namespace Nursery.Domain.Tasks;

/// <summary>Which tasks of a batch its ledger closes. Only a sowing closes the sow task: 'done' by a second person
/// does not outlive a sowing that was taken back. Carrying trays to a bench without heat closes the move off heat,
/// however it was reported.</summary>
public static class TaskClosings
{
    /// <summary>The first closing of each task; a second person who reports the same task done changes nothing.</summary>
    public static IReadOnlyDictionary<(TaskKind Kind, int Occurrence), (LocalDate Day, string Who)> Of(
        IReadOnlyCollection<LedgerEntry> entries)
    {
        var closings = new Dictionary<(TaskKind, int), (LocalDate, string)>();
        foreach (var entry in LedgerOrder.Effective(entries))
        {
            switch (entry.Value)
            {
                case Done { Task: not TaskKind.Sow } done:
                    closings.TryAdd((done.Task, done.Occurrence), (entry.Day, entry.WhoName));
                    break;
                case Moved { BenchKind: not BenchKind.Germination }:
                    closings.TryAdd((TaskKind.MoveOffHeat, 1), (entry.Day, entry.WhoName));
                    break;
                case Sown:
                    closings.TryAdd((TaskKind.Sow, 1), (entry.Day, entry.WhoName));
                    break;
            }
        }

        return closings;
    }
}
