using Nursery.Domain.Benches;
using Nursery.Domain.Reservations;

namespace Nursery.Domain.Ledger;

/// <summary>Tray spaces were reserved, from a day to the first day no longer held (ISO dates).</summary>
public sealed record Reserved(Id<Reservation> Reservation, SpaceRun Trays, Id<Bench> Bench, SpaceRun Spaces, string From, string To) : EntryValue
{
    protected override LedgerKind OwnKind => LedgerKind.Reserved;
}
