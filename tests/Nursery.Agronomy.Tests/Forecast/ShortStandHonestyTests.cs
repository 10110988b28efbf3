using Nursery.Agronomy.Forecast;
using Nursery.Past;
using Xunit;
using Xunit.Abstractions;

namespace Nursery.Agronomy.Tests.Forecast;

/// <summary>Whether acting on forecasts of short stands pays, on invented seasons whose truth is kept beside them. Each batch is decided on at
/// its last resow day, with what was counted until then: so many trays sown again, or none. The oracle knows what comes up of every seed, not who
/// drops a tray later; one that knows that too is told beside it. docs/agronomy/short-stands.md has the numbers this prints.</summary>
public sealed class ShortStandHonestyTests(ITestOutputHelper output)
{
    private static readonly BetaShape Survival = new(38, 2);
    private static readonly RemedyCosts Costs = new();
    private static readonly Dictionary<string, PastCrop> Crops = PastGround.Nursery.Crops.ToDictionary(crop => crop.Code);

    /// <summary>The seasons plan five days between ready and due; more are given to see what slack buys.</summary>
    [Fact]
    public void Decisions_OfInventedSeasons_CostLittleMoreThanAnOracles()
    {
        var seasons = Enumerable.Range(1, 4).Select(seed => new PastForecasts((ulong)seed)).ToList();
        var bySlack = new[] { 5, 12, 19, 26 }.AsParallel().AsOrdered().Select(slack => (slack, Rows: seasons.SelectMany(season => Decide(season, slack - 5)).ToList())).ToList();
        foreach (var (slack, rows) in bySlack)
        {
            Say(slack, rows);
        }

        // With the five days of the plan almost nobody can act; with three weeks most can.
        Assert.True(Decided(bySlack[0].Rows).Count < 0.2 * bySlack[0].Rows.Count);
        var decided = bySlack.Skip(1).SelectMany(item => Decided(item.Rows)).ToList();
        Assert.True(decided.Count > 500);
        Assert.True(decided.Sum(row => row.Cost) < 0.9 * decided.Sum(row => row.CostOfNothing));
        Assert.True(decided.Sum(row => row.Cost) <= 1.10 * decided.Sum(row => row.OracleCost));
        var alarms = decided.Where(row => row.Chance >= 0.5).ToList();
        Assert.True(alarms.Average(row => row.IsShort ? 1d : 0) > 0.6);
        Assert.True(alarms.Count(row => row.IsShort) > 0.6 * decided.Count(row => row.IsShort));
    }

    private static IEnumerable<Row> Decide(PastForecasts season, int moreDays)
    {
        foreach (var batch in season.All)
        {
            var truth = season.Truth(batch);
            if (batch.OrderedOn >= 0 || truth.MedianDay <= 0)
            {
                continue;
            }

            var last = EmergenceForecast.Of(Asked(season, batch, 0, moreDays)).LastResowDay ?? -1;
            if (last is < 0 or > 366)
            {
                yield return Row.Late;
                continue;
            }

            var question = Asked(season, batch, last, moreDays);
            yield return question.Counts.Count(count => count.Day <= last) < 2 ? Row.Late : Decide(batch, truth, question);
        }
    }

    /// <summary>What the product asks that day, its own finished batches being known.</summary>
    private static ForecastQuestion Asked(PastForecasts season, PastBatch batch, double asOf, int moreDays)
    {
        var crop = Crops[batch.Crop];
        var question = season.Question(batch, asOf, learnt: true) with
        {
            WantedPlants = batch.Plants,
            Survival = Survival,
            DueDay = batch.OrderedOn - batch.SowOn + moreDays,
            GrowDays = crop.DaysToReady - crop.DaysToEmergence,
        };
        return question with { ResowTemperature = question.Temperatures.First };
    }

    private static Row Decide(PastBatch batch, Nursery.Past.BatchTruth truth, ForecastQuestion question)
    {
        var outlook = EmergenceOutlook.Of(question);
        var usable = Math.Min(truth.Delivered, batch.Trays * batch.CellsPerTray);
        var prior = BetaShape.Of(new Fraction(Math.Clamp(outlook.Forecast.FinalFraction.Median, 0.02, 0.995)));
        var ours = Resow.Best(outlook, batch.Plants, new ResowQuestion(prior, batch.SeedsPerCell, batch.CellsPerTray, 60) { Survival = Survival }, Costs).Trays;

        // Who knows what comes up has counted all of it.
        var certain = BetaShape.Of(new Fraction(Math.Clamp(truth.FinalFraction, 0.02, 0.99)), 100_000);
        var known = EmergenceOutlook.Of(question with { Prior = certain, Counts = [] });
        var oracle = Resow.Best(known, batch.Plants, new ResowQuestion(certain, batch.SeedsPerCell, batch.CellsPerTray, 60) { Survival = Survival }, Costs).Trays;
        double Cost(int trays) => (trays * batch.CellsPerTray * Costs.ResownCell) + (Costs.MissingPlant * Math.Max(0, batch.Plants - usable - Yield(batch, truth, trays)));
        return new Row(
            true, ShortStand.Chance(outlook, batch.Plants).Value, ShortStand.IsMaterial(batch.Plants, usable), Cost(ours), Cost(0), Cost(oracle),
            Enumerable.Range(0, 61).Min(Cost));
    }

    /// <summary>Of a resow on average, of the same seed.</summary>
    private static double Yield(PastBatch batch, Nursery.Past.BatchTruth truth, int trays) =>
        trays * batch.CellsPerTray * (1 - Math.Pow(1 - truth.FinalFraction, batch.SeedsPerCell)) * Survival.Mean;

    private static List<Row> Decided(IEnumerable<Row> rows) => [.. rows.Where(row => row.HadADay)];

    private void Say(int slack, List<Row> rows)
    {
        var decided = Decided(rows);
        output.WriteLine(FormattableString.Invariant(
            $"slack {slack}: {rows.Count} batches, {rows.Count - decided.Count} without a day; {decided.Count(row => row.IsShort)} short of {decided.Count}"));
        if (decided.Count < 20)
        {
            return;
        }

        output.WriteLine(FormattableString.Invariant(
            $"  cost: ours {decided.Sum(row => row.Cost):0}, nothing {decided.Sum(row => row.CostOfNothing):0}, oracle {decided.Sum(row => row.OracleCost):0} (ratio {decided.Sum(row => row.Cost) / decided.Sum(row => row.OracleCost):0.000}), knowing all {decided.Sum(row => row.ProphetCost):0} (ratio {decided.Sum(row => row.Cost) / decided.Sum(row => row.ProphetCost):0.000})"));
        foreach (var threshold in new[] { 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9 })
        {
            var alarms = decided.Where(row => row.Chance >= threshold).ToList();
            output.WriteLine(FormattableString.Invariant(
                $"  from {threshold:0.0}: {alarms.Count} alarms, precision {(alarms.Count == 0 ? 0 : alarms.Average(row => row.IsShort ? 1d : 0)):0.00}, recall {alarms.Count(row => row.IsShort) / Math.Max(1d, decided.Count(row => row.IsShort)):0.00}"));
        }
    }

    /// <param name="HadADay">Two counts before its last resow day.</param>
    /// <param name="Chance">Of a material shortfall, as forecast.</param>
    /// <param name="IsShort">It was, in truth.</param>
    private sealed record Row(bool HadADay, double Chance, bool IsShort, double Cost, double CostOfNothing, double OracleCost, double ProphetCost)
    {
        /// <summary>Nobody could act in time.</summary>
        public static Row Late { get; } = new(false, 0, false, 0, 0, 0, 0);
    }
}
