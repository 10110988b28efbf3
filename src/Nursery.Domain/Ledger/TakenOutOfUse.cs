using Nursery.Domain.Benches;
using Nursery.Domain.HeatZones;

namespace Nursery.Domain.Ledger;

/// <summary>A bench, or one of its heat zones, cannot be used from a day to the first day it can again (ISO dates).</summary>
public sealed record TakenOutOfUse(Id<Bench> Bench, Id<HeatZone>? Zone, string From, string To, string? Why) : EntryValue
{
    protected override LedgerKind OwnKind => LedgerKind.TakenOutOfUse;
}
