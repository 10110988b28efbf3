using NodaTime;
using Nursery.Domain.Benches;
using Nursery.Domain.Sites;
using Nursery.Domain.TraySets;

namespace Nursery.Domain.Reservations;

/// <summary>The plan: tray spaces of a bench held for days. The database refuses two that overlap.</summary>
public sealed class Reservation
{
    public required Id<Reservation> Id { get; init; }
    public required Id<Site> SiteId { get; init; }
    public required Id<TraySet> TraySetId { get; init; }
    public required SpaceRun Trays { get; init; }
    public required Id<Bench> BenchId { get; init; }

    /// <summary>The bench's capacity, kept true by the database, so that no run reaches beyond the bench.</summary>
    public required int Capacity { get; init; }
    public required SpaceRun Spaces { get; set; }

    /// <summary>Held days, both ends included.</summary>
    public required DateInterval Days { get; set; }

    /// <summary>First day no longer held.</summary>
    public LocalDate To => Days.End.PlusDays(1);
}
