using Nursery.Agronomy.Forecast;
using Xunit;
using Xunit.Abstractions;

namespace Nursery.Agronomy.Tests.Forecast;

/// <summary>Forecasts of whole invented seasons, whose truth is kept beside them: curves, rates and temperatures that are not ours, trays
/// that differ, samples, blanks only, missed days, damping-off, one bad lot, one cold zone. What was chosen with them in sight:
/// docs/agronomy/forecast.md.</summary>
public sealed class PastSeasonTests(ITestOutputHelper output)
{
    private static readonly ulong[] Seasons = [1, 2, 3];

    [Fact]
    public void Intervals_ByTheLabelAlone_HoldMostTruths()
    {
        var table = Table(learnt: false);
        table.Write(output);
        Assert.True(table.Count > 1500);
        Assert.InRange(table.Coverage(), 0.85, 0.95);

        // A label far from the truth is given up for what was counted.
        Assert.True(table.Against("label alone", "2 bad lot") < 0.5);
    }

    [Fact]
    public void Intervals_WithTheOwnRecord_HoldNineInTenAndLoseHalfAsMuch()
    {
        var table = Table(learnt: true);
        table.Write(output);
        Assert.InRange(table.Coverage(), 0.85, 0.95);
        Assert.All(new[] { "0.9", "1.3", "2", "k=1", "k=2", "cold zone", "prior ≥ 0.7" }, stratum => Assert.InRange(table.Coverage(stratum), 0.85, 0.95));
        Assert.All(new[] { "Cabbage", "Lettuce", "Pepper", "Tomato" }, stratum => Assert.InRange(table.Coverage(stratum), 0.82, 0.98));
        Assert.True(table.Against("label alone") <= 0.7);
        Assert.True(table.Against("knows the generator") <= 1.10);
    }

    private static ScoreTable Table(bool learnt)
    {
        var table = new ScoreTable();
        Parallel.ForEach(Seasons, new ParallelOptions { MaxDegreeOfParallelism = 2 }, seed =>
        {
            var season = new PastForecasts(seed);
            foreach (var batch in season.Finished)
            {
                foreach (var when in new[] { 0.9, 1.3, 2.0 })
                {
                    Add(table, season, batch, when, learnt);
                }
            }
        });
        return table;
    }

    private static void Add(ScoreTable table, PastForecasts season, Past.PastBatch batch, double when, bool learnt)
    {
        var asOf = when * season.MedianDay(batch);
        var (question, final) = (season.Question(batch, asOf, learnt), season.FinalFraction(batch));
        var label = season.Question(batch, asOf) with { Counts = [] };
        var known = ForecastOracles.OfTheBatch(season.Curve(batch), day => season.ProgressAt(batch, day));
        double Score(ForecastQuestion asked, ForecastBeliefs beliefs) => ForecastScore.Of(asked, beliefs, final).Crps;
        var others = new Dictionary<string, double> { ["label alone"] = Score(label, ForecastBeliefs.Usual(label)) };
        if (learnt)
        {
            others["prior alone"] = Score(question with { Counts = [] }, ForecastBeliefs.Usual(question));
            others["knows the generator"] = Score(question, season.Generator(batch));
            others["knows the batch's curve"] = Score(question, known);
            others["knows the batch's curve and chance"] = Score(question with { Prior = ForecastOracles.Sure(season.Chance(batch)) }, known);
        }

        table.Add(
            [
                FormattableString.Invariant($"{when}"), season.Kind(batch), FormattableString.Invariant($"{when} {season.Kind(batch)}"),
                FormattableString.Invariant($"k={batch.SeedsPerCell}"), question.Prior.Mean < 0.7 ? "prior < 0.7" : "prior ≥ 0.7", final < 0.7 ? "truth < 0.7" : "truth ≥ 0.7",
            ],
            ForecastScore.Of(question, ForecastBeliefs.Usual(question), final),
            others);
    }
}
