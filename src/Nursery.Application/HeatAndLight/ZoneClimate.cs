using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.HeatZones;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.HeatZones;
using Nursery.Domain.Houses;
using Nursery.Domain.Sites;

namespace Nursery.Application.HeatAndLight;

/// <summary>What a zone read in two hours, °C.</summary>
public sealed record CoursePoint(Instant At, decimal LowC, decimal MeanC, decimal HighC);

/// <summary>A heat zone: what it is set to today, °C, what it read last and over the last days, and what the crops on it bear: their
/// names, and the band all of them bear (null when nobody lies there, or no temperature suits all).</summary>
public sealed record ZoneClimate(
    string Code,
    string BenchCode,
    decimal SetpointC,
    decimal? ReadsC,
    Instant? ReadAt,
    IReadOnlyList<CoursePoint> Course,
    IReadOnlyList<string> Crops,
    decimal? BandMinC,
    decimal? BandMaxC)
{
    /// <summary>What its seeds say; null while no counted batch does.</summary>
    public LearntOffset? Offset { get; init; }

    public required MatToday Mat { get; init; }

    /// <summary>Whether the last reading is outside the band.</summary>
    public bool IsOut => ReadsC < BandMinC || ReadsC > BandMaxC;
}

internal static class ZoneClimates
{
    private const int PointHours = 2;

    public static async Task<ILookup<Id<House>, ZoneClimate>> LoadAsync(
        NurseryDbContext database, Site site, IReadOnlyList<House> houses, Instant from, LocalDate today, CancellationToken cancellation)
    {
        var zones = await (
            from zone in database.HeatZones
            join bench in database.Benches on zone.BenchId equals bench.Id
            where zone.SiteId == site.Id && bench.RetiredOn == null
            orderby bench.RoundOrder, zone.Spaces
            select new { zone, bench.HouseId, Bench = bench.Code }).AsNoTracking().ToListAsync(cancellation);
        var spans = await database.ZoneSetpoints.AsNoTracking()
            .Where(span => span.SiteId == site.Id && span.Days.Contains(today)).ToListAsync(cancellation);
        var readings = (await database.ZoneReadings.AsNoTracking()
            .Where(row => row.SiteId == site.Id && row.At >= from).OrderBy(row => row.At).ToListAsync(cancellation)).ToLookup(row => row.ZoneId);
        var crops = (await ZoneCrops.StandingAsync(database, site.Id, cancellation)).ToLookup(row => row.Zone.Id);
        var byId = houses.ToDictionary(house => house.Id);
        return zones.Where(row => byId.ContainsKey(row.HouseId)).ToLookup(row => row.HouseId, row =>
        {
            var lying = crops[row.zone.Id].ToList();
            var (low, high) = lying.Count == 0 ? ((decimal?)null, (decimal?)null) : (lying.Max(crop => crop.MinC), lying.Min(crop => crop.MaxC));
            var none = low > high;
            var setpoint = new ZoneProgram(row.zone, spans).On(today);
            return new ZoneClimate(
                row.zone.Code, row.Bench, setpoint, row.zone.ReadsC, row.zone.ReadAt,
                CourseOf(readings[row.zone.Id]), [.. lying.Select(crop => crop.Name)], none ? null : low, none ? null : high)
            {
                Offset = LearntOffset.Of(row.zone, setpoint, site.Units),
                Mat = MatToday.Of(row.zone, byId[row.HouseId], site, setpoint),
            };
        });
    }

    private static List<CoursePoint> CourseOf(IEnumerable<ZoneReading> readings) =>
    [
        .. readings.GroupBy(row => row.At.ToUnixTimeSeconds() / (PointHours * 3600))
            .Select(hours => new CoursePoint(
                Instant.FromUnixTimeSeconds((long)hours.Average(row => row.At.ToUnixTimeSeconds())),
                hours.Min(row => row.TemperatureC), hours.Average(row => row.TemperatureC), hours.Max(row => row.TemperatureC))),
    ];
}
