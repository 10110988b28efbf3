using Nursery.Agronomy.Emergence;
using Nursery.Agronomy.Forecast;
using Nursery.Agronomy.Sowing;
using Nursery.Past;
using Xunit;
using Xunit.Abstractions;

namespace Nursery.Agronomy.Tests.Forecast;

/// <summary>Forecasts of whole invented seasons, whose truth is kept beside them: curves, rates and temperatures that are not ours, trays
/// that differ, samples, blanks only, missed days, damping-off, one bad lot, one cold zone.</summary>
public sealed class PastSeasonTests(ITestOutputHelper output)
{
    [Fact]
    public void Intervals_OfInventedSeasons_HoldMostTruths()
    {
        var rows = new ulong[] { 1, 2, 3 }.SelectMany(seed => Rows(SeasonMaker.Make(PastGround.Nursery, seed))).ToList();
        Assert.True(rows.Count > 1500);
        Say("all", rows);
        foreach (var group in rows.GroupBy(row => row.Stratum).OrderBy(group => group.Key, StringComparer.Ordinal))
        {
            Say(group.Key, [.. group]);
        }

        Assert.InRange(rows.Average(row => row.Within ? 1d : 0), 0.82, 0.95);
        Assert.True(rows.Average(row => row.Score) < 0.9 * rows.Average(row => row.PriorScore));

        // A label far from the truth is given up for what was counted.
        var bad = rows.Where(row => row.Stratum == "2 bad lot").ToList();
        Assert.True(bad.Average(row => row.Score) < 0.5 * bad.Average(row => row.PriorScore));
    }

    private static IEnumerable<(string Stratum, bool Within, double Score, double PriorScore)> Rows(PastSeason season)
    {
        var lots = season.Lots.ToDictionary(lot => lot.Code);
        var entries = season.Entries.Where(entry => entry.Batch is not null).ToLookup(entry => entry.Batch!.Value);
        foreach (var batch in season.Batches)
        {
            var truth = season.Truth.Batches.Single(item => item.Batch == batch.Number);
            if (truth.MedianDay <= 0 || batch.SowOn + (3 * truth.MedianDay) >= 0)
            {
                // Not over yet: nobody knows what will have come up.
                continue;
            }

            foreach (var when in new[] { 0.9, 1.3, 2.0 })
            {
                var question = Question(batch, lots[batch.Lot], [.. entries[batch.Number]], when * truth.MedianDay);
                var forecast = EmergenceForecast.Of(question).FinalFraction;
                var prior = EmergenceForecast.Of(question with { Counts = [] }).FinalFraction;
                yield return (
                    $"{when} {(lots[batch.Lot].IsBad ? "bad lot" : batch.Zone == season.Truth.ColdZone ? "cold zone" : batch.Crop)}",
                    truth.FinalFraction >= forecast.Low && truth.FinalFraction <= forecast.High,
                    Pinball(forecast, truth.FinalFraction), Pinball(prior, truth.FinalFraction));
            }
        }
    }

    internal static ForecastQuestion Question(PastBatch batch, PastLot lot, IReadOnlyList<PastEntry> entries, double asOf)
    {
        var crop = EmergenceDefaults.Find(PastGround.Names[batch.Crop])!;
        var zone = PastGround.Zone(batch.Zone);
        var off = entries.FirstOrDefault(entry => entry.Work == PastWork.MoveOffHeat)?.Day - batch.SowOn;
        List<(double, Temperature)> steps = [(0, Temperature.FromDegrees(zone.ReadsC!.Value))];
        if (off is { } day)
        {
            steps.Add((day, Temperature.FromDegrees(batch.Crop is "LE" or "CA" ? 16 : 20)));
        }

        var counts = entries.Where(entry => entry.Work is PastWork.CountSeedlings or PastWork.CountBlanks).Select(entry => new EmergenceCount(
            entry.Day - batch.SowOn, entry.Work == PastWork.CountBlanks ? CountKind.Blanks : CountKind.Seedlings, entry.Value,
            (entry.Trays ?? batch.Trays) * batch.CellsPerTray));
        return new ForecastQuestion(
            crop.Rate, crop.Curve, batch.Trays * batch.CellsPerTray, batch.SeedsPerCell,
            SeedPrior.Of(Fraction.FromPercent(lot.LabelPercent), new Fraction(1)), new TemperatureRecord(steps), [.. counts], asOf, 1);
    }

    private static double Pinball(Interval interval, double truth) =>
        (Loss(interval.Low, 0.05, truth) + Loss(interval.Median, 0.5, truth) + Loss(interval.High, 0.95, truth)) / 3;

    private static double Loss(double quantile, double at, double truth) =>
        truth >= quantile ? at * (truth - quantile) : (1 - at) * (quantile - truth);

    private void Say(string name, List<(string Stratum, bool Within, double Score, double PriorScore)> rows) => output.WriteLine(
        FormattableString.Invariant(
            $"{name}: {rows.Count} forecasts, within {rows.Average(row => row.Within ? 1d : 0):P1}, score against prior {rows.Average(row => row.Score) / rows.Average(row => row.PriorScore):0.00}"));
}
