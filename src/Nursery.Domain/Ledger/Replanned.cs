namespace Nursery.Domain.Ledger;

/// <summary>Reservations changed: what stood before and what stands instead, so that the change can be taken back.</summary>
public sealed record Replanned(string What, IReadOnlyList<PlanRow> Before, IReadOnlyList<PlanRow> After) : EntryValue
{
    protected override LedgerKind OwnKind => LedgerKind.Replanned;
}
