using NodaTime;
using Nursery.Application.HeatZones;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.HeatZones;
using Nursery.Domain.Sites;

namespace Nursery.Application.Start;

/// <summary>A zone that reads what a crop on it does not germinate in; the crop's band in °C.</summary>
public sealed record ZoneOutOfBand(
    Id<HeatZone> ZoneId, string ZoneCode, string BenchCode, decimal ReadsC, string CropName, decimal MinC, decimal MaxC);

internal static class ZonesOutOfBand
{
    /// <summary>An older reading says nothing of now.</summary>
    public static readonly Duration Oldest = Duration.FromDays(1);

    /// <summary>Each zone once, with the crop that is hurt most.</summary>
    public static async Task<IReadOnlyList<ZoneOutOfBand>> LoadAsync(
        NurseryDbContext database, Id<Site> site, Instant now, CancellationToken cancellation) =>
    [
        .. (await ZoneCrops.StandingAsync(database, site, cancellation))
            .Where(row => row.Zone.ReadAt >= now - Oldest && row.Zone.ReadsC is not null)
            .Select(row => (Row: row, Reads: row.Zone.ReadsC!.Value))
            .Select(row => (row.Row, row.Reads, By: Math.Max(row.Row.MinC - row.Reads, row.Reads - row.Row.MaxC)))
            .Where(row => row.By > 0)
            .GroupBy(row => row.Row.Zone.Code)
            .Select(zone => zone.MaxBy(row => row.By))
            .Select(row => new ZoneOutOfBand(
                row.Row.Zone.Id, row.Row.Zone.Code, row.Row.BenchCode, row.Reads, row.Row.Name, row.Row.MinC, row.Row.MaxC)),
    ];
}
