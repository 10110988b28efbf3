using NodaTime;
using Nursery.Domain;
using Nursery.Domain.Benches;

namespace Nursery.Application.Scenario;

/// <summary>A line of reservations.csv; <paramref name="To"/> is the first day no longer held.</summary>
internal sealed record ReservationRow(Bench Bench, SpaceRun Spaces, LocalDate From, LocalDate To)
{
    public bool Overlaps(ReservationRow other) =>
        Bench == other.Bench && Spaces.Overlaps(other.Spaces) && From < other.To && other.From < To;
}
