namespace Nursery.Domain.Ledger;

/// <summary>Plants lost, and the cause in words.</summary>
public sealed record Loss(int Plants, string Cause) : EntryValue
{
    public override LedgerKind Kind => LedgerKind.Loss;
}
