using Nursery.Domain.HeatZones;

namespace Nursery.Domain.Ledger;

/// <summary>A zone was given another setpoint, °C, from a day to the first day it no longer holds (ISO dates; null is for good).</summary>
public sealed record SetpointChanged(Id<HeatZone> Zone, decimal SetpointC, string From, string? To) : EntryValue
{
    protected override LedgerKind OwnKind => LedgerKind.SetpointChanged;
}
