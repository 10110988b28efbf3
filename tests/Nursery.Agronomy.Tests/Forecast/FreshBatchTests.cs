using Nursery.Agronomy.Forecast;
using Xunit;
using Xunit.Abstractions;

namespace Nursery.Agronomy.Tests.Forecast;

/// <summary>An independent check: batches of a kind nobody had seen when the forecast was finished. The bounds below are what came out,
/// loosened; nothing of the forecast was changed after.</summary>
public sealed class FreshBatchTests(ITestOutputHelper output)
{
    private const int Batches = 500;

    [Fact]
    public void Intervals_OfAKindNeverSeen_AreReported()
    {
        var table = new ScoreTable();
        Parallel.For(0, Batches, new ParallelOptions { MaxDegreeOfParallelism = 2 }, seed =>
        {
            var truth = new FreshTruth(seed);
            foreach (var when in new[] { 0.9, 1.3, 2.0 })
            {
                var question = truth.Question(when * truth.Half);
                var usual = ForecastBeliefs.Usual(question);
                table.Add(
                    [FormattableString.Invariant($"{when}"), FormattableString.Invariant($"{when} {truth.Class}"), FormattableString.Invariant($"{when} k={truth.SeedsPerCell}"), truth.FinalFraction < 0.7 ? "truth < 0.7" : "truth ≥ 0.7"],
                    ForecastScore.Of(question, usual, truth.FinalFraction, truth.FinalStand),
                    new Dictionary<string, double> { ["prior alone"] = ForecastScore.Of(question with { Counts = [] }, usual, truth.FinalFraction).Crps });
            }
        });
        table.Write(output);
        Assert.InRange(table.Coverage(), 0.87, 0.94);
        Assert.All(table.Strata.Where(stratum => !stratum.StartsWith("truth", StringComparison.Ordinal)), stratum => Assert.InRange(table.Coverage(stratum), 0.79, 0.96));
        Assert.True(table.Against("prior alone") < 0.83);
    }
}
