using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Agronomy;
using Nursery.Agronomy.Emergence;
using Nursery.Agronomy.Growth;
using Nursery.Application.Crops;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Benches;
using Nursery.Domain.Crops;
using Nursery.Domain.HeatZones;
using Nursery.Domain.Sites;

namespace Nursery.Application.Sowings;

/// <summary>Where a batch is to germinate.</summary>
/// <param name="Media">Of the growing mix.</param>
/// <param name="HouseCode">Null without a zone.</param>
/// <param name="From">In words: the zone and its setpoint.</param>
internal sealed record HeatSpot(Temperature Media, string? HouseCode, string From);

/// <summary>The heat a site plans to give: its zones day by day, and how long crops take there.</summary>
internal sealed class PlannedHeat
{
    /// <summary>A guide's light, above what makes plugs late: the site's own is not asked here.</summary>
    private const double GuideMol = 10;

    /// <summary>A guide's daily mean, °C: the house is taken to be as warm, so it cancels.</summary>
    private const decimal GuideMeanC = 20;

    private readonly Units _units;
    private readonly IReadOnlyList<Zone> _zones;

    private PlannedHeat(Units units, IReadOnlyList<Zone> zones) => (_units, _zones) = (units, zones);

    public static async Task<PlannedHeat> LoadAsync(NurseryDbContext database, Site site, CancellationToken cancellation)
    {
        var rows = await (
            from zone in database.HeatZones
            join bench in database.Benches on zone.BenchId equals bench.Id
            join house in database.Houses on bench.HouseId equals house.Id
            where zone.SiteId == site.Id && bench.RetiredOn == null
            orderby house.RoundOrder, bench.RoundOrder, zone.Code
            select new { zone, bench.Id, House = house.Code }).AsNoTracking().ToListAsync(cancellation);
        var spans = await database.ZoneSetpoints.AsNoTracking().Where(span => span.SiteId == site.Id).ToListAsync(cancellation);
        return new PlannedHeat(site.Units, [.. rows.Select(row => new Zone(new ZoneProgram(row.zone, spans), row.Id, row.House))]);
    }

    /// <summary>The zone under a place held for the batch; without one the zone nearest to the crop's optimum that accepts it; else the optimum.</summary>
    public HeatSpot SpotOf(Crop crop, LocalDate day, (Id<Bench> Bench, int Space)? place)
    {
        var held = place is { } at
            ? _zones.FirstOrDefault(zone => zone.Bench == at.Bench && zone.Program.Zone.Spaces.First <= at.Space && at.Space <= zone.Program.Zone.Spaces.Last)
            : null;
        var zone = held ?? _zones.Where(zone => crop.Accepts(zone.Program.On(day)))
            .OrderBy(zone => Math.Abs(zone.Program.On(day) - crop.GerminationOptimumC)).FirstOrDefault();
        if (zone is null)
        {
            return new HeatSpot(new Temperature(crop.GerminationOptimumC), null, $"no zone suits {crop.Name} yet: its best temperature");
        }

        var setpoint = zone.Program.On(day);
        return new HeatSpot(
            MediaOffset.Of(new Temperature(setpoint)), zone.House,
            $"zone {zone.Program.Zone.Code}{(held is null ? ", the best for it" : "")}, set to {Degrees.Of(setpoint, _units)}, the mix {Degrees.Of(MediaOffset.Of(new Temperature(setpoint)).Celsius, _units)}");
    }

    /// <summary>Days from sowing to half up; null where it does not come.</summary>
    public static double? EmergenceDays(Crop crop, Temperature media)
    {
        var found = FindCropEmergence.Of(crop);
        return found.Published is { } published ? published.DaysTo(new Fraction(0.5), media) : found.Rate.DaysToHalf(media);
    }

    /// <summary>Days from sowing to ready: emergence on the heat planned, and the growth that the profile's weeks leave after emergence at the best
    /// temperature. Where seed does not come, the profile's.</summary>
    public static int DaysToReady(Crop crop, HeatSpot spot)
    {
        var best = EmergenceDays(crop, new Temperature(crop.GerminationOptimumC));
        if (best is not { } guide || EmergenceDays(crop, spot.Media) is not { } here || here > 60)
        {
            return crop.DaysToReady;
        }

        var weeks = (double)crop.WeeksToTransplant;
        var mean = new Temperature(GuideMeanC);
        var growth = ReadyDays.Of((weeks, weeks), Math.Min(60, guide), mean, mean, GuideMol, Hardiness.Middle)!.Value.Median;
        return (int)Math.Round(here + growth, MidpointRounding.AwayFromZero);
    }

    private sealed record Zone(ZoneProgram Program, Id<Bench> Bench, string House);
}
