using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Data;
using Nursery.Domain.People;

namespace Nursery.Application.Start;

/// <summary>A zone that reads what a crop on it does not germinate in; the crop's band in °C.</summary>
public sealed record ZoneOutOfBand(string ZoneCode, string BenchCode, decimal ReadsC, string CropName, decimal MinC, decimal MaxC);

internal static class ZonesOutOfBand
{
    /// <summary>An older reading says nothing of now.</summary>
    private static readonly Duration Oldest = Duration.FromDays(1);

    /// <summary>Each zone once, with the crop that is hurt most.</summary>
    public static async Task<IReadOnlyList<ZoneOutOfBand>> LoadAsync(
        NurseryDbContext database, Actor actor, Instant now, CancellationToken cancellation)
    {
        var since = now - Oldest;
        var rows = await (
            from zone in database.HeatZones
            join bench in database.Benches on zone.BenchId equals bench.Id
            join standing in database.Standings on bench.Id equals standing.BenchId
            join share in database.TrayShares on standing.TraySetId equals share.TraySetId
            join batch in database.Batches on share.BatchId equals batch.Id
            join variety in database.Varieties on batch.VarietyId equals variety.Id
            join crop in database.Crops on variety.CropId equals crop.Id
            where zone.SiteId == actor.SiteId && zone.ReadsC != null && zone.ReadAt >= since
            select new
            {
                zone.Code,
                Bench = bench.Code,
                ReadsC = zone.ReadsC!.Value,
                Zone = zone.Spaces,
                Trays = standing.Spaces,
                Crop = crop.Name,
                crop.GerminationMinC,
                crop.GerminationMaxC,
            }).AsNoTracking().ToListAsync(cancellation);
        return
        [
            .. rows.Where(row => row.Trays is null || row.Trays.Value.Overlaps(row.Zone))
                .Select(row => (Row: row, By: Math.Max(row.GerminationMinC - row.ReadsC, row.ReadsC - row.GerminationMaxC)))
                .Where(row => row.By > 0)
                .GroupBy(row => row.Row.Code)
                .Select(zone => zone.OrderByDescending(row => row.By).ThenBy(row => row.Row.Crop, StringComparer.Ordinal).First().Row)
                .OrderBy(row => row.Code, StringComparer.Ordinal)
                .Select(row => new ZoneOutOfBand(row.Code, row.Bench, row.ReadsC, row.Crop, row.GerminationMinC, row.GerminationMaxC)),
        ];
    }
}
