using NodaTime.Text;
using Nursery.Domain.Ledger;
using Nursery.Domain.Reservations;

namespace Nursery.Application.Reservations;

internal static class ReservationEntry
{
    /// <summary>What the ledger says of a reservation.</summary>
    public static Reserved AsEntry(this Reservation reservation) => new(
        reservation.Id,
        reservation.Trays,
        reservation.BenchId,
        reservation.Spaces,
        LocalDatePattern.Iso.Format(reservation.Days.Start),
        LocalDatePattern.Iso.Format(reservation.To));
}
