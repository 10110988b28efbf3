using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Benches;
using Nursery.Domain.Crops;
using Nursery.Domain.HeatZones;
using Nursery.Domain.Refusals;
using Nursery.Domain.TraySets;

namespace Nursery.Application.Reservations;

/// <summary>Which spaces of a bench suit the seed of a tray set. Temperature is checked on germination benches only.</summary>
internal sealed class BenchTemperatures
{
    private readonly Bench _bench;
    private readonly IReadOnlyList<(HeatZone Zone, IReadOnlyList<decimal> Setpoints)> _zones;
    private readonly IReadOnlyList<Crop> _crops;

    private BenchTemperatures(
        Bench bench, IReadOnlyList<(HeatZone Zone, IReadOnlyList<decimal> Setpoints)> zones, IReadOnlyList<Crop> crops) =>
        (_bench, _zones, _crops) = (bench, zones, crops);

    /// <summary>Every setpoint the zones have from a day to the first day no longer asked for must suit.</summary>
    public static async Task<BenchTemperatures> LoadAsync(
        NurseryDbContext database,
        Bench bench,
        Id<TraySet> traySet,
        LocalDate from,
        LocalDate to,
        CancellationToken cancellation)
    {
        if (bench.Kind != BenchKind.Germination)
        {
            return new BenchTemperatures(bench, [], []);
        }

        var crops = await (
            from share in database.TrayShares
            join batch in database.Batches on share.BatchId equals batch.Id
            join variety in database.Varieties on batch.VarietyId equals variety.Id
            join crop in database.Crops on variety.CropId equals crop.Id
            where share.TraySetId == traySet
            select crop).Distinct().AsNoTracking().ToListAsync(cancellation);
        return await LoadAsync(database, bench, crops, from, to, cancellation);
    }

    /// <summary>As above, for seed of these crops.</summary>
    public static async Task<BenchTemperatures> LoadAsync(
        NurseryDbContext database,
        Bench bench,
        IReadOnlyList<Crop> crops,
        LocalDate from,
        LocalDate to,
        CancellationToken cancellation)
    {
        if (bench.Kind != BenchKind.Germination)
        {
            return new BenchTemperatures(bench, [], []);
        }

        var zones = await database.HeatZones.AsNoTracking().Where(zone => zone.BenchId == bench.Id).ToListAsync(cancellation);
        var spans = await database.ZoneSetpoints.AsNoTracking().Where(span => span.SiteId == bench.SiteId).ToListAsync(cancellation);
        return new BenchTemperatures(
            bench,
            [.. zones.OrderBy(zone => zone.Spaces.First).Select(zone => (zone, new ZoneProgram(zone, spans).Over(from, to)))],
            crops);
    }

    /// <summary>Stretches of spaces without a zone that is wrong for a crop, in order.</summary>
    public IEnumerable<SpaceRun> Suitable()
    {
        var first = 1;
        foreach (var (zone, _) in _zones.Where(zone => _crops.Any(crop => !zone.Setpoints.All(crop.Accepts))))
        {
            if (zone.Spaces.First > first)
            {
                yield return new SpaceRun(first, zone.Spaces.First - first);
            }

            first = Math.Max(first, zone.Spaces.Last + 1);
        }

        if (first <= _bench.Capacity)
        {
            yield return new SpaceRun(first, _bench.Capacity - first + 1);
        }
    }

    /// <exception cref="TooCold">A zone under the run is below what a crop accepts.</exception>
    /// <exception cref="TooHot">It is above.</exception>
    public void Refuse(SpaceRun run)
    {
        var asked =
            from zone in _zones.Where(zone => zone.Zone.Spaces.Overlaps(run))
            from setpoint in zone.Setpoints
            from crop in _crops
            select (zone.Zone, setpoint, crop);
        foreach (var (zone, setpoint, crop) in asked)
        {
            if (setpoint < crop.GerminationMinC)
            {
                throw new TooCold(zone.Code, setpoint, crop.Name, crop.GerminationMinC, crop.GerminationMaxC);
            }

            if (setpoint > crop.GerminationMaxC)
            {
                throw new TooHot(zone.Code, setpoint, crop.Name, crop.GerminationMinC, crop.GerminationMaxC);
            }
        }
    }
}
