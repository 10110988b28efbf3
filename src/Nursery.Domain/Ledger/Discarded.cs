namespace Nursery.Domain.Ledger;

/// <summary>The batch was given up.</summary>
public sealed record Discarded(string Reason) : EntryValue
{
    protected override LedgerKind OwnKind => LedgerKind.Discarded;
}
