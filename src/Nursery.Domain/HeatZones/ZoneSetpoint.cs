using NodaTime;
using Nursery.Domain.Sites;

namespace Nursery.Domain.HeatZones;

/// <summary>Another setpoint of a zone for a span of days; outside all spans the zone's own holds.</summary>
public sealed class ZoneSetpoint
{
    public required Id<ZoneSetpoint> Id { get; init; }
    public required Id<Site> SiteId { get; init; }
    public required Id<HeatZone> ZoneId { get; init; }

    /// <summary>Both ends included. Spans of a zone never overlap.</summary>
    public required DateInterval Days { get; set; }

    /// <summary>°C, 0–60.</summary>
    public required decimal SetpointC { get; set; }
}
