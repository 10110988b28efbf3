using NodaTime;
using Nursery.Application.HeatZones;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.HeatZones;
using Nursery.Domain.Sites;

namespace Nursery.Application.Start;

/// <summary>A zone with trays on it whose probe was read before and is not any more, for how many hours.</summary>
public sealed record ZoneUnread(Id<HeatZone> ZoneId, string ZoneCode, string BenchCode, int Hours);

internal static class ZonesUnread
{
    /// <summary>From the moment on from which the last reading says nothing of now: then nobody would be told of a cold zone.</summary>
    public static async Task<IReadOnlyList<ZoneUnread>> LoadAsync(
        NurseryDbContext database, Id<Site> site, Instant now, CancellationToken cancellation) =>
    [
        .. (await ZoneCrops.StandingAsync(database, site, cancellation))
            .Where(row => row.Zone.ReadAt < now - ZonesOutOfBand.Oldest)
            .DistinctBy(row => row.Zone.Id)
            .Select(row => new ZoneUnread(row.Zone.Id, row.Zone.Code, row.BenchCode, (int)(now - row.Zone.ReadAt!.Value).TotalHours)),
    ];
}
