namespace Nursery.Domain.Ledger;

/// <summary>A planned batch was given other trays, another sowing day (ISO date) or lot.</summary>
public sealed record BatchReplanned(int Trays, string SowOn, string? LotCode) : EntryValue
{
    protected override LedgerKind OwnKind => LedgerKind.BatchReplanned;
}
