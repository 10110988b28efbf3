using MathNet.Numerics.Distributions;
using Nursery.Agronomy.Forecast;
using Xunit;
using Xunit.Abstractions;

namespace Nursery.Agronomy.Tests.Forecast;

/// <summary>Whether nine in ten truths lie in the intervals, on batches our model did not make. The first half of the batches was in sight
/// when the ten curves of the forecast were chosen; the second was not.</summary>
public sealed class ForecastHonestyTests(ITestOutputHelper output)
{
    private const int Batches = 400;

    [Fact]
    public void Intervals_OfInventedBatches_HoldNineInTen()
    {
        var table = new ScoreTable();
        Parallel.For(0, Batches, new ParallelOptions { MaxDegreeOfParallelism = 2 }, seed =>
        {
            var truth = new BatchTruth(seed);
            foreach (var when in new[] { 0.9, 1.3, 2.0 })
            {
                Add(table, truth, when, seed < Batches / 2 ? "half in sight" : "half not in sight");
            }
        });
        table.Write(output);
        Assert.InRange(table.Coverage(), 0.85, 0.95);
        Assert.All(table.Strata, stratum => Assert.InRange(table.Coverage(stratum), 0.85, table.In(stratum) > 300 ? 0.95 : 0.98));
        Assert.All(table.Strata, stratum => Assert.InRange(table.StandCoverage(stratum), 0.85, 0.98));

        // Nobody who is not told what was drawn for a batch does much better: who knows how all are drawn has 0.68 × the prior alone.
        Assert.True(table.Against("prior alone") < 0.78);
        Assert.True(table.Against("knows the generator") < 1.15);

        // Once emergence is over the counts say far more than the label did.
        Assert.True(table.Against("prior alone", "2") < 0.5);
    }

    /// <summary>The closed form against an integral of (F(x) − 1{x ≥ truth})², a second way.</summary>
    [Theory]
    [InlineData(-1)]
    [InlineData(0.4)]
    [InlineData(3)]
    public void Crps_OfAMixture_IsTheIntegral(double truth)
    {
        (double Mean, double Sd, double Weight)[] parts = [(0, 1, 0.3), (2, 0.5, 0.7)];
        var sum = 0d;
        for (var x = -8d; x < 10; x += 0.001)
        {
            var below = parts.Sum(part => part.Weight * Normal.CDF(part.Mean, part.Sd, x + 0.0005)) - (x + 0.0005 >= truth ? 1 : 0);
            sum += below * below * 0.001;
        }

        Assert.Equal(sum, ForecastScore.CrpsOf(parts, truth), 0.001);
    }

    private static void Add(ScoreTable table, BatchTruth truth, double when, string half)
    {
        var day = when * truth.Half;
        var question = truth.Question(day);
        var (usual, final) = (ForecastBeliefs.Usual(question), truth.FinalFraction);
        var batch = ForecastOracles.OfTheBatch(progress => truth.CurveAt(progress, question.Counts is [.., var last] ? last.Cells : truth.Cells), at => at / truth.Half);
        var (mean, sd) = truth.SeesEverySeed(day);
        double Score(ForecastQuestion asked, ForecastBeliefs beliefs) => ForecastScore.Of(asked, beliefs, final).Crps;
        table.Add(
            [FormattableString.Invariant($"{when}"), FormattableString.Invariant($"{when} k={truth.SeedsPerCell}"), half, truth.Prior.Mean < 0.7 ? "prior < 0.7" : "prior ≥ 0.7"],
            ForecastScore.Of(question, usual, final, truth.FinalStand),
            new Dictionary<string, double>
            {
                ["prior alone"] = Score(question with { Counts = [] }, usual),
                ["knows the generator"] = Score(question, ForecastOracles.Generator(truth, question)),
                ["knows the batch's curve"] = Score(question, batch),
                ["knows the batch's curve and chance"] = Score(question with { Prior = ForecastOracles.Sure(truth.Chance) }, batch),
                ["sees every seed"] = ForecastScore.CrpsOf([(mean, sd, 1)], final),
            });
    }
}
