using Nursery.Agronomy.Forecast;
using Xunit;
using Xunit.Abstractions;

namespace Nursery.Agronomy.Tests.Forecast;

/// <summary>Whether nine in ten truths lie in the intervals, on batches our model did not make.</summary>
public sealed class ForecastHonestyTests(ITestOutputHelper output)
{
    private const int Batches = 400;

    [Fact]
    public void Intervals_OfInventedBatches_HoldNineInTen()
    {
        var rows = Enumerable.Range(0, Batches).AsParallel().AsOrdered().SelectMany(seed => new[] { 0.9, 1.3, 2.0 }.Select(when => Row(new BatchTruth(seed), when))).ToList();
        Say("all", rows);
        foreach (var group in rows.GroupBy(row => row.Stratum).OrderBy(group => group.Key, StringComparer.Ordinal))
        {
            Say(group.Key, [.. group]);
        }

        Assert.InRange(Coverage(rows), 0.85, 0.95);
        Assert.All(rows.GroupBy(row => row.Stratum), group => Assert.InRange(Coverage([.. group]), 0.83, 0.96));
        Assert.True(rows.Average(row => row.Score) < 0.8 * rows.Average(row => row.PriorScore));

        // Once emergence is over the counts say far more than the label did.
        var late = rows.Where(row => row.Stratum.StartsWith('2')).ToList();
        Assert.True(late.Average(row => row.Score) < 0.5 * late.Average(row => row.PriorScore));
    }

    private static (string Stratum, bool Within, bool StandWithin, double Score, double PriorScore, double OracleScore) Row(BatchTruth truth, double when)
    {
        var forecast = EmergenceForecast.Of(truth.Question(when * truth.Half));
        var prior = EmergenceForecast.Of(truth.Question(when * truth.Half, withCounts: false));
        var final = truth.FinalFraction;
        return (
            $"{when} k={truth.SeedsPerCell}",
            final >= forecast.FinalFraction.Low - 1e-9 && final <= forecast.FinalFraction.High + 1e-9,
            truth.FinalStand >= forecast.Stand.Low && truth.FinalStand <= forecast.Stand.High,
            Pinball(forecast.FinalFraction, final), Pinball(prior.FinalFraction, final), Pinball(truth.Oracle(when * truth.Half), final));
    }

    /// <summary>Mean pinball loss of the 5, 50 and 95 % points: a three-point CRPS.</summary>
    private static double Pinball(Interval interval, double truth) =>
        (Loss(interval.Low, 0.05, truth) + Loss(interval.Median, 0.5, truth) + Loss(interval.High, 0.95, truth)) / 3;

    private static double Loss(double quantile, double at, double truth) =>
        truth >= quantile ? at * (truth - quantile) : (1 - at) * (quantile - truth);

    private static double Coverage(List<(string Stratum, bool Within, bool StandWithin, double Score, double PriorScore, double OracleScore)> rows) =>
        rows.Average(row => row.Within ? 1d : 0);

    private void Say(string name, List<(string Stratum, bool Within, bool StandWithin, double Score, double PriorScore, double OracleScore)> rows) => output.WriteLine(
        FormattableString.Invariant(
            $"{name}: {rows.Count} forecasts, within {Coverage(rows):P1}, stand {rows.Average(row => row.StandWithin ? 1d : 0):P1}, score against prior {rows.Average(row => row.Score) / rows.Average(row => row.PriorScore):0.00}, against an oracle {rows.Average(row => row.Score) / rows.Average(row => row.OracleScore):0.00}"));
}
