namespace Nursery.Domain.Ledger;

/// <summary>The batch was given up.</summary>
public sealed record Discarded(string Reason) : EntryValue
{
    public override LedgerKind Kind => LedgerKind.Discarded;
}
