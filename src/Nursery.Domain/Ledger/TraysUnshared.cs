namespace Nursery.Domain.Ledger;

/// <summary>A planned batch has trays to itself again: which, how many, how many cells, and with which batches it shared before.</summary>
public sealed record TraysUnshared(string TraySetCode, int Trays, int Cells, IReadOnlyList<string> Without) : EntryValue
{
    protected override LedgerKind OwnKind => LedgerKind.TraysUnshared;
}
