using Microsoft.EntityFrameworkCore;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.HeatZones;
using Nursery.Domain.Sites;

namespace Nursery.Application.HeatZones;

/// <summary>A crop whose trays stand on a zone now.</summary>
internal sealed record ZoneCrop(HeatZone Zone, string BenchCode, string Name, decimal MinC, decimal MaxC);

internal static class ZoneCrops
{
    /// <summary>Each zone with each crop once, by zone and crop.</summary>
    public static async Task<IReadOnlyList<ZoneCrop>> StandingAsync(
        NurseryDbContext database, Id<Site> site, CancellationToken cancellation)
    {
        var rows = await (
            from zone in database.HeatZones
            join bench in database.Benches on zone.BenchId equals bench.Id
            join standing in database.Standings on bench.Id equals standing.BenchId
            join share in database.TrayShares on standing.TraySetId equals share.TraySetId
            join batch in database.Batches on share.BatchId equals batch.Id
            join variety in database.Varieties on batch.VarietyId equals variety.Id
            join crop in database.Crops on variety.CropId equals crop.Id
            where zone.SiteId == site
            select new { zone, Bench = bench.Code, Trays = standing.Spaces, crop.Name, crop.GerminationMinC, crop.GerminationMaxC })
            .AsNoTracking().ToListAsync(cancellation);
        return
        [
            .. rows.Where(row => row.Trays is null || row.Trays.Value.Overlaps(row.zone.Spaces))
                .DistinctBy(row => (row.zone.Id, row.Name))
                .OrderBy(row => row.zone.Code, StringComparer.Ordinal).ThenBy(row => row.Name, StringComparer.Ordinal)
                .Select(row => new ZoneCrop(row.zone, row.Bench, row.Name, row.GerminationMinC, row.GerminationMaxC)),
        ];
    }
}
