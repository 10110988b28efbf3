namespace Nursery.Domain.Ledger;

/// <summary>Another entry is taken back. The entry may arrive later than its undo.</summary>
public sealed record Undo(Id<LedgerEntry> Entry) : EntryValue
{
    protected override LedgerKind OwnKind => LedgerKind.Undo;
}
