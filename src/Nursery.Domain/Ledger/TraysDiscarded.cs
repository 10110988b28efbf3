namespace Nursery.Domain.Ledger;

/// <summary>Some trays were thrown away, and the cause in words; the batch goes on in the others.</summary>
public sealed record TraysDiscarded(SpaceRun Trays, string Cause) : EntryValue
{
    protected override LedgerKind OwnKind => LedgerKind.TraysDiscarded;
}
