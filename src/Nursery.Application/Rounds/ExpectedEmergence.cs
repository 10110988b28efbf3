using Microsoft.EntityFrameworkCore;
using NodaTime;
using NodaTime.Text;
using Nursery.Agronomy;
using Nursery.Agronomy.Emergence;
using Nursery.Application.Computed;
using Nursery.Application.Crops;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.Crops;
using Nursery.Domain.SeedLots;
using Nursery.Domain.Sites;

namespace Nursery.Application.Rounds;

/// <summary>What should be up today in the trays on heat, for whoever counts them. The mix is taken as warm as the zone under the first
/// tray is set today, and by what the zone is learnt to be off, or moist mix usually is.</summary>
internal sealed class ExpectedEmergence
{
    private readonly ILookup<string, (SpaceRun Spaces, decimal SetpointC, decimal OffsetC, string House)> _zones;
    private readonly SeedChances _chances;
    private readonly Units _units;
    private readonly Dictionary<(Id<SeedLot>, LocalDate, LocalDate, int, (decimal, decimal, string), Guid?), ExpectedShare?> _known = [];

    private ExpectedEmergence(
        ILookup<string, (SpaceRun Spaces, decimal SetpointC, decimal OffsetC, string House)> zones, SeedChances chances, Units units) =>
        (_zones, _chances, _units) = (zones, chances, units);

    public static async Task<ExpectedEmergence> LoadAsync(NurseryDbContext database, Site site, LocalDate day, CancellationToken cancellation)
    {
        var zones = await (
            from zone in database.HeatZones
            join bench in database.Benches on zone.BenchId equals bench.Id
            join house in database.Houses on bench.HouseId equals house.Id
            where zone.SiteId == site.Id
            select new
            {
                bench.Code,
                House = house.Code,
                zone.Spaces,
                zone,
                Setpoint = database.ZoneSetpoints.Where(span => span.ZoneId == zone.Id && span.Days.Contains(day))
                    .Select(span => (decimal?)span.SetpointC).FirstOrDefault() ?? zone.SetpointC,
            }).ToListAsync(cancellation);
        return new ExpectedEmergence(
            zones.ToLookup(zone => zone.Code, zone => (zone.Spaces, zone.Setpoint, zone.zone.BelievedOffsetC, zone.House)),
            await SeedChances.LoadAsync(database, site, day, cancellation),
            site.Units);
    }

    /// <summary>Null for trays that are not sown, not on heat, in a place not known, or of no known lot.</summary>
    public ExpectedShare? Of(Batch batch, Crop crop, SeedLot? lot, string? bench, int? firstSpace, LocalDate day)
    {
        if (batch.State.SownOn is not { } sown || batch.State.OffHeatOn is not null || lot is null || day < sown
            || bench is null || firstSpace is not { } space || ZoneAt(bench, space) is not { } zone)
        {
            return null;
        }

        // Batches of one lot, sown the same day on the same heat, are told the same, but of one that is in the record it is left out.
        Guid? recorded = _chances.Knows(lot, batch.Id.Value) ? batch.Id.Value : null;
        var alike = (lot.Id, sown, day, batch.SeedsPerCell, zone, recorded);
        return _known.TryGetValue(alike, out var known) ? known : _known[alike] = Find(batch.SeedsPerCell, recorded, crop, lot, zone, sown, day);
    }

    private ExpectedShare? Find(
        int seedsPerCell, Guid? recorded, Crop crop, SeedLot lot, (decimal SetpointC, decimal OffsetC, string House) zone, LocalDate sown, LocalDate day)
    {
        var found = FindCropEmergence.Of(crop);
        var media = MediaOffset.Of(new Temperature(zone.SetpointC), zone.OffsetC);
        var days = Period.DaysBetween(sown, day);
        if (days > ExpectedUp.MostDays || _chances.Of(new SeedQuestion(crop, lot, zone.House, media, sown) { Except = recorded }) is not { } chance)
        {
            // Nothing would come up at this temperature, or after so long: then nothing can be expected of it.
            return null;
        }

        var up = ExpectedUp.Of(found.Rate, found.Curve, media, days, chance.Prior, seedsPerCell);
        return new ExpectedShare(up.Low.Value, up.High.Value, HowOf(found, media, zone.SetpointC, sown, days, chance, seedsPerCell));
    }

    private How HowOf(
        CropEmergenceFound found, Temperature media, decimal setpointC, LocalDate sown, int days, SeedChance chance, int seedsPerCell) => new(
        "share of cells up that nine in ten batches have",
        "1 − (1 − p · H(days ÷ days to half))^k, slow and poor to quick and good",
        [
            HowInput.Of("days since sowing", days, "0", "days", $"sown {LocalDatePattern.Iso.Format(sown)}"),
            found.Rate.DaysToHalf(media) is { } half
                ? HowInput.Of("days to half", half, "0.0", "days", $"{found.Name} in mix of {Degrees.Of(media.Celsius, _units)}, the zone set to {Degrees.Of(setpointC, _units)}")
                : new HowInput("days to half", "none", "", $"{found.Name} does not emerge in mix of {Degrees.Of(media.Celsius, _units)}"),
            HowInput.Of("speed between lots", VarietySpeed.BetweenLots, "0.00", "", "standard deviation of ln days, from memory"),
            HowInput.Of("p, chance of a seed", chance.Prior.Mean * 100, "0", "%", chance.How.Formula),
            .. chance.How.Inputs,
            HowInput.Of("k, seeds a cell", seedsPerCell, "0", "", "of the batch"),
        ],
        $"days: Knott's Handbook 1997 after Harrington & Minges 1954, or the crop's own profile; {chance.How.Source}",
        "docs/agronomy/emergence.md");

    private (decimal SetpointC, decimal OffsetC, string House)? ZoneAt(string bench, int space) => _zones[bench]
        .Where(zone => zone.Spaces.First <= space && space <= zone.Spaces.Last)
        .Select(zone => ((decimal, decimal, string)?)(zone.SetpointC, zone.OffsetC, zone.House)).FirstOrDefault();
}
