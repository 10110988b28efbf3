using Nursery.Domain.Benches;
using Nursery.Domain.Reservations;
using Nursery.Domain.TraySets;

namespace Nursery.Domain.Ledger;

/// <summary>A reservation as the ledger remembers it; days are ISO dates, <paramref name="To"/> the first no longer held.</summary>
public sealed record PlanRow(
    Id<Reservation> Reservation,
    Id<TraySet> TraySet,
    SpaceRun Trays,
    Id<Bench> Bench,
    SpaceRun Spaces,
    string From,
    string To);
