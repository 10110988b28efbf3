namespace Nursery.Domain.Ledger;

/// <summary>Plants lost, and the cause in words.</summary>
public sealed record Loss(int Plants, string Cause) : EntryValue
{
    protected override LedgerKind OwnKind => LedgerKind.Loss;
}
