using Nursery.Domain.Benches;
using Nursery.Domain.HeatZones;

namespace Nursery.Domain.Ledger;

/// <summary>A bench, or one of its heat zones, can be used again from a day on, sooner than was said (ISO dates).</summary>
/// <param name="From">First day it was out of use.</param>
/// <param name="On">First day it can be used again; not later than <paramref name="From"/>: it never was out of use.</param>
/// <param name="Instead">The day that was said.</param>
public sealed record GivenBack(Id<Bench> Bench, Id<HeatZone>? Zone, string From, string On, string Instead) : EntryValue
{
    protected override LedgerKind OwnKind => LedgerKind.GivenBack;
}
