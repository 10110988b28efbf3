namespace Nursery.Domain.Ledger;

/// <summary>Seeds of a lot came into stock.</summary>
public sealed record Receipt(int Seeds) : EntryValue
{
    public override LedgerKind Kind => LedgerKind.Receipt;
}
