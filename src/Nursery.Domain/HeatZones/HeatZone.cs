using NodaTime;
using Nursery.Domain.Benches;
using Nursery.Domain.Sites;

namespace Nursery.Domain.HeatZones;

/// <summary>A run of spaces of a germination bench on one thermostat.</summary>
public sealed class HeatZone
{
    public required Id<HeatZone> Id { get; init; }
    public required Id<Site> SiteId { get; init; }
    public required Id<Bench> BenchId { get; init; }
    public required string Code { get; set; }
    public required SpaceRun Spaces { get; set; }

    /// <summary>°C, 0–60.</summary>
    public required decimal SetpointC { get; set; }

    /// <summary>Last reading of the zone's probe, °C; null before the first.</summary>
    public decimal? ReadsC { get; set; }
    public Instant? ReadAt { get; set; }
    public int Version { get; set; } = 1;
}
