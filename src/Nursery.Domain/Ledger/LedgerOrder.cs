namespace Nursery.Domain.Ledger;

/// <summary>The one order in which entries fold, whatever order they arrived in.</summary>
public static class LedgerOrder
{
    /// <summary>The entries that stand (undone ones, and what followed from them, left out), by when they happened, then by id.
    /// An undo itself cannot be undone: the thing is done again instead. So the answer needs no order of arrival.</summary>
    public static IReadOnlyList<LedgerEntry> Effective(IReadOnlyCollection<LedgerEntry> entries)
    {
        var undone = entries.Select(entry => entry.Value).OfType<Undo>().Select(undo => undo.Entry).ToHashSet();
        return
        [
            .. entries
                .Where(entry => entry.Value is not Undo
                    && !undone.Contains(entry.Id)
                    && !(entry.CausedBy is { } cause && undone.Contains(cause)))
                .OrderBy(entry => entry.EffectiveAt)
                .ThenBy(entry => entry.Id),
        ];
    }
}
