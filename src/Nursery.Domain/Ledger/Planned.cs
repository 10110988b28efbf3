namespace Nursery.Domain.Ledger;

/// <summary>A batch was planned.</summary>
public sealed record Planned(int Trays, int CellsPerTray, int SeedsPerCell) : EntryValue
{
    protected override LedgerKind OwnKind => LedgerKind.Planned;
}
