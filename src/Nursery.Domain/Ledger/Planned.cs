namespace Nursery.Domain.Ledger;

/// <summary>A batch was planned.</summary>
public sealed record Planned(int Trays, int CellsPerTray, int SeedsPerCell) : EntryValue
{
    public override LedgerKind Kind => LedgerKind.Planned;
}
