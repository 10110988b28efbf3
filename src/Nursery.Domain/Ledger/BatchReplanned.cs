namespace Nursery.Domain.Ledger;

/// <summary>A planned batch was given other trays, another sowing day (ISO date), lot or seeds a cell; null for what stayed.</summary>
public sealed record BatchReplanned(int Trays, string SowOn, string? LotCode, int? SeedsPerCell = null) : EntryValue
{
    protected override LedgerKind OwnKind => LedgerKind.BatchReplanned;
}
