using NodaTime;
using Nursery.Domain.Sites;

namespace Nursery.Domain.HeatZones;

/// <summary>What a zone's probe in the mix read at a moment; one a moment.</summary>
public sealed class ZoneReading
{
    /// <summary>°C a probe in growing mix may read.</summary>
    public const decimal LeastC = -20;
    public const decimal MostC = 60;

    public required Id<HeatZone> ZoneId { get; init; }
    public required Instant At { get; init; }
    public required Id<Site> SiteId { get; init; }
    public required decimal TemperatureC { get; init; }
}
