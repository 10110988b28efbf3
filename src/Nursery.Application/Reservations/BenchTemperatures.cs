using Microsoft.EntityFrameworkCore;
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
    private readonly IReadOnlyList<HeatZone> _zones;
    private readonly IReadOnlyList<Crop> _crops;

    private BenchTemperatures(Bench bench, IReadOnlyList<HeatZone> zones, IReadOnlyList<Crop> crops) =>
        (_bench, _zones, _crops) = (bench, zones, crops);

    public static async Task<BenchTemperatures> LoadAsync(
        NurseryDbContext database, Bench bench, Id<TraySet> traySet, CancellationToken cancellation)
    {
        if (bench.Kind != BenchKind.Germination)
        {
            return new BenchTemperatures(bench, [], []);
        }

        var zones = await database.HeatZones.AsNoTracking().Where(zone => zone.BenchId == bench.Id).ToListAsync(cancellation);
        var crops = await (
            from share in database.TrayShares
            join batch in database.Batches on share.BatchId equals batch.Id
            join variety in database.Varieties on batch.VarietyId equals variety.Id
            join crop in database.Crops on variety.CropId equals crop.Id
            where share.TraySetId == traySet
            select crop).Distinct().AsNoTracking().ToListAsync(cancellation);
        return new BenchTemperatures(bench, [.. zones.OrderBy(zone => zone.Spaces.First)], crops);
    }

    /// <summary>Stretches of spaces without a zone that is wrong for a crop, in order.</summary>
    public IEnumerable<SpaceRun> Suitable()
    {
        var first = 1;
        foreach (var zone in _zones.Where(zone => _crops.Any(crop => !crop.Accepts(zone.SetpointC))))
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
        foreach (var zone in _zones.Where(zone => zone.Spaces.Overlaps(run)))
        {
            foreach (var crop in _crops)
            {
                if (zone.SetpointC < crop.GerminationMinC)
                {
                    throw new TooCold(zone.Code, zone.SetpointC, crop.Name, crop.GerminationMinC, crop.GerminationMaxC);
                }

                if (zone.SetpointC > crop.GerminationMaxC)
                {
                    throw new TooHot(zone.Code, zone.SetpointC, crop.Name, crop.GerminationMinC, crop.GerminationMaxC);
                }
            }
        }
    }
}
