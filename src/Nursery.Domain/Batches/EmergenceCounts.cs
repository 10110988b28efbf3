using Nursery.Domain.Ledger;
using Nursery.Domain.Tasks;

namespace Nursery.Domain.Batches;

/// <summary>What people counted of a batch's emergence, day by day, out of the ledger.</summary>
public static class EmergenceCounts
{
    /// <summary>One count a day, by day: of several on one day the widest speaks, and of equally wide ones the highest, as in
    /// <see cref="CountedEmergence"/>. Counts after thinning are of the stand and left out.</summary>
    public static IReadOnlyList<EmergenceCount> Of(IReadOnlyCollection<LedgerEntry> entries) =>
    [
        .. LedgerOrder.Effective(entries)
            .TakeWhile(entry => entry.Value is not Done { Task: TaskKind.Thin })
            .Select(CountOf)
            .OfType<EmergenceCount>()
            .GroupBy(count => count.Day)
            .Select(day => day.OrderByDescending(count => count.Seeds ?? 0).ThenByDescending(count => count.Up).First())
            .OrderBy(count => count.Day),
    ];

    private static EmergenceCount? CountOf(LedgerEntry entry) => entry.Value switch
    {
        Count count => new EmergenceCount(entry.Day, count.Cells * count.SeedsPerCell, CountedEmergence.Seedlings(count)),
        NotYet { Task: TaskKind.EmergenceCheck, SaysNotUp: true } => new EmergenceCount(entry.Day, null, 0),
        _ => null,
    };
}
