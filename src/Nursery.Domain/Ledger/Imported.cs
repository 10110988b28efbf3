namespace Nursery.Domain.Ledger;

/// <summary>A file was imported: rows read and rows created.</summary>
public sealed record Imported(string What, int Rows, int Created) : EntryValue
{
    protected override LedgerKind OwnKind => LedgerKind.Imported;
}
