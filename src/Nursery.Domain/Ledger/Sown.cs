using Nursery.Domain.SeedLots;

namespace Nursery.Domain.Ledger;

/// <summary>A batch was sown from a lot: seeds taken, cells filled.</summary>
public sealed record Sown(Id<SeedLot> Lot, int Seeds, int Cells, int SeedsPerCell) : EntryValue
{
    protected override LedgerKind OwnKind => LedgerKind.Sown;
}
