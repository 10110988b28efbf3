using NodaTime;
using Nursery.Domain.Sites;

namespace Nursery.Domain.HeatZones;

/// <summary>What a zone does that seed on it does not bear, from when it was found to when it was over. At most one of a kind is open.</summary>
public sealed class ZoneAlarm
{
    public required Id<ZoneAlarm> Id { get; init; }
    public required Id<Site> SiteId { get; init; }
    public required Id<HeatZone> ZoneId { get; init; }
    public required ZoneAlarmKind Kind { get; init; }
    public required Instant Since { get; init; }

    /// <summary>Null while it lasts.</summary>
    public Instant? Until { get; set; }

    /// <summary>The reading farthest out, °C; null where none came.</summary>
    public decimal? WorstC { get; set; }

    /// <summary>The crop hurt most, and what it bears, °C; null where no reading came.</summary>
    public string? CropName { get; set; }
    public decimal? MinC { get; set; }
    public decimal? MaxC { get; set; }
}
