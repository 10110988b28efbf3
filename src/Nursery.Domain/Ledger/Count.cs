namespace Nursery.Domain.Ledger;

/// <summary>What was counted in how many cells; a sample, or all cells of the batch. Trays lists the numbers of the trays looked at when known.</summary>
public sealed record Count(CountWhat What, int Value, int Cells, bool Sample, int SeedsPerCell, IReadOnlyList<int>? Trays = null) : EntryValue
{
    protected override LedgerKind OwnKind => LedgerKind.Count;
}
