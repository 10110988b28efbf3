using NodaTime;
using Nursery.Domain.HeatZones;
using Nursery.Domain.Sites;

namespace Nursery.Domain.Benches;

/// <summary>Days on which a bench, or one of its heat zones, cannot be used. Trays may stand there nevertheless: that is the emergency.</summary>
public sealed class Outage
{
    public required Id<Outage> Id { get; init; }
    public required Id<Site> SiteId { get; init; }
    public required Id<Bench> BenchId { get; init; }

    /// <summary>Null: the whole bench.</summary>
    public Id<HeatZone>? ZoneId { get; init; }

    /// <summary>Both ends included. Those of one bench, or of one zone, never overlap.</summary>
    public required DateInterval Days { get; set; }

    /// <summary>1–200 characters; null when nobody said.</summary>
    public string? Why { get; init; }

    /// <summary>Who took it out of use.</summary>
    public required string WhoName { get; init; }

    /// <summary>First day it can be used again.</summary>
    public LocalDate To => Days.End.PlusDays(1);
}
