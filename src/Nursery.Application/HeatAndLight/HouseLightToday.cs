using System.Globalization;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Agronomy;
using Nursery.Agronomy.Light;
using Nursery.Application.Computed;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Benches;
using Nursery.Domain.Houses;
using Nursery.Domain.Sites;
using Interval = Nursery.Agronomy.Interval;

namespace Nursery.Application.HeatAndLight;

/// <summary>Daily light in a house today, mol m⁻² d⁻¹: of a usual sky, and from a dull to a bright one.</summary>
/// <param name="Inside">Light of the sun at the leaves.</param>
/// <param name="Batches">Batches up on its growing and hardening benches.</param>
/// <param name="TargetFrom">What the most demanding of them wants at least; 0 without any.</param>
/// <param name="TargetTo">What more would do no good.</param>
/// <param name="How">The light inside.</param>
/// <param name="Lamps">Null where the house has none.</param>
public sealed record HouseLightToday(Interval Inside, int Batches, double TargetFrom, double TargetTo, How How, LampsTonight? Lamps);

/// <summary>What the lamps of a house must give tonight.</summary>
/// <param name="Hours">Of a usual day, and from a bright to a dull one.</param>
/// <param name="IsShort">Even all hours lamps may burn leave the usual day under the target.</param>
/// <param name="LitM2">Growing benches, m².</param>
/// <param name="Kwh">For the hours of a usual day.</param>
/// <param name="Cost">In hundredths of the currency; null without a price.</param>
/// <param name="How">The hours.</param>
public sealed record LampsTonight(Interval Hours, bool IsShort, double LitM2, double Kwh, decimal? Cost, How How);

internal static class HouseLights
{
    private const string Page = "docs/agronomy/light.md";
    private const double CmSquaredPerM2 = 10_000;

    /// <summary>By house; none where nobody said where the site lies.</summary>
    public static async Task<IReadOnlyDictionary<Id<House>, HouseLightToday>> LoadAsync(
        NurseryDbContext database, Site site, IReadOnlyList<House> houses, LocalDate today, CancellationToken cancellation)
    {
        if (site.Latitude is not { } latitude)
        {
            return new Dictionary<Id<House>, HouseLightToday>();
        }

        var lit = (await database.Benches.AsNoTracking()
            .Where(bench => bench.SiteId == site.Id && bench.RetiredOn == null && bench.Kind == BenchKind.Growing)
            .Select(bench => new { bench.HouseId, Area = (double)bench.LengthCm * bench.WidthCm }).ToListAsync(cancellation))
            .ToLookup(bench => bench.HouseId, bench => bench.Area / CmSquaredPerM2);
        var up = (await (
            from standing in database.Standings
            join bench in database.Benches on standing.BenchId equals bench.Id
            join share in database.TrayShares on standing.TraySetId equals share.TraySetId
            join batch in database.Batches on share.BatchId equals batch.Id
            where standing.SiteId == site.Id && bench.Kind != BenchKind.Germination
            select new { bench.HouseId, batch.Id, Up = batch.State.FirstUpOn ?? batch.State.OffHeatOn ?? standing.Since }).ToListAsync(cancellation))
            .GroupBy(row => (row.HouseId, row.Id))
            .ToLookup(batch => batch.Key.HouseId, batch => Period.DaysBetween(batch.Min(row => row.Up), today));
        return houses.ToDictionary(
            house => house.Id,
            house => Of(house, site, new Latitude((double)latitude), today, [.. up[house.Id]], lit[house.Id].Sum()));
    }

    private static HouseLightToday Of(House house, Site site, Latitude latitude, LocalDate today, List<int> daysUp, double litM2)
    {
        var cover = new Fraction((double)(house.CoverShare ?? (decimal)DailyLight.UsualCover));
        var outside = HouseLight.Outside(latitude, today.DayOfYear);
        var inside = HouseLight.Inside(latitude, today.DayOfYear, cover);
        var (from, to) = daysUp.Select(days => DailyLight.Target(Math.Clamp(days, 0, 400))).DefaultIfEmpty((0, 0)).Max();
        var how = new How(
            $"daily light in {house.Name}",
            "radiation outside × 2.05 mol/MJ × share through the cover; from a dull to a bright sky",
            [
                new HowInput("radiation outside", Span(outside, "0.0"), "MJ m⁻² d⁻¹", Invariant($"sun of {today:d MMMM} at {latitude.Degrees:0.##}° north, 0.5 (0.1 to 0.9) of the day's sunshine, from memory")),
                HowInput.Of("through the cover", cover.Percent, "0", "%", house.CoverShare is null ? "from memory" : $"house {house.Code}"),
                new HowInput("wanted", Invariant($"{from:0}–{to:0}"), "mol m⁻² d⁻¹", daysUp.Count == 0 ? "nothing is up here" : Invariant($"the most demanding of {daysUp.Count} batches, up for {daysUp.Max()} days")),
            ],
            "FAO Irrigation and Drainage Paper 56, equations 21–25 and 35; Thimijan & Heins 1983; targets: extension guides and from memory",
            Page);
        return new HouseLightToday(inside, daysUp.Count, from, to, how, Lamps(house, site, inside, from, litM2));
    }

    private static LampsTonight? Lamps(House house, Site site, Interval inside, double wanted, double litM2)
    {
        if (house is not { LampPpfd: { } ppfd, LampWattsM2: { } watts })
        {
            return null;
        }

        double HoursFor(double natural) => DailyLight.LampHours(wanted, natural, (double)ppfd);
        var hours = new Interval(HoursFor(inside.Median), HoursFor(inside.High), HoursFor(inside.Low));
        var kwh = DailyLight.LampEnergyKwh((double)watts * litM2, hours.Median);
        var cost = site.KwhPrice * (decimal)kwh;
        var how = new How(
            $"lamp hours in {house.Name} tonight",
            "(wanted − light of the sun) ÷ (PPFD × 0.0036), 16 at most; kWh = W/m² × lit area × hours ÷ 1000",
            [
                HowInput.Of("wanted", wanted, "0", "mol m⁻² d⁻¹", "the least its plants want"),
                new HowInput("light of the sun", Span(inside, "0.0"), "mol m⁻² d⁻¹", "reckoned, not measured"),
                HowInput.Of("lamps", (double)ppfd, "0", "µmol m⁻² s⁻¹", $"house {house.Code}"),
                HowInput.Of("power", (double)watts, "0", "W/m²", $"house {house.Code}"),
                HowInput.Of("lit", litM2, "0", "m²", "its growing benches"),
                site.KwhPrice is { } price
                    ? HowInput.Of("price", (double)price / 100, "0.000", $"{site.Currency}/kWh", $"site {site.Code}")
                    : new HowInput("price", "not told", "", "Setup, Site"),
            ],
            "arithmetic; most hours: from memory",
            Page);
        return new LampsTonight(hours, inside.Median + DailyLight.Mol((double)ppfd, hours.Median) < wanted - 0.05, litM2, kwh, cost, how);
    }

    private static string Span(Interval interval, string format) => string.Create(
        CultureInfo.InvariantCulture, $"{interval.Median.ToString(format, CultureInfo.InvariantCulture)} ({interval.Low.ToString(format, CultureInfo.InvariantCulture)} to {interval.High.ToString(format, CultureInfo.InvariantCulture)})");

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
