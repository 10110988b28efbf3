namespace Nursery.Domain.Ledger;

/// <summary>A planned batch was given rows of cells in trays it shares: which (in words), how many cells, and with which batches.</summary>
public sealed record TraysShared(string TraySetCode, string Part, int Cells, IReadOnlyList<string> With) : EntryValue
{
    protected override LedgerKind OwnKind => LedgerKind.TraysShared;
}
