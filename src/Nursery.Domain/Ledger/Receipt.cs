namespace Nursery.Domain.Ledger;

/// <summary>Seeds of a lot came into stock.</summary>
public sealed record Receipt(int Seeds) : EntryValue
{
    protected override LedgerKind OwnKind => LedgerKind.Receipt;
}
