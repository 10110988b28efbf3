using Nursery.Agronomy.Germination;
using Xunit;

namespace Nursery.Agronomy.Tests.Germination;

public sealed class PoolingTests
{
    [Fact]
    public void Pooled_EqualBatches_AreOneLargeBatch()
    {
        var pooled = PooledGermination.Of([(100, 80), (100, 80), (200, 160)]);
        Assert.Equal((0.8, 0), (Math.Round(pooled.Mean.Value, 12), pooled.Correlation));
        Assert.Equal(Math.Sqrt(0.16 / 400), pooled.StandardError, 1e-12);
    }

    /// <summary>Simulated batches with known spread: a + b = 35, so the correlation of two seeds is 1 ÷ 36.</summary>
    [Fact]
    public void Pooled_SimulatedBatches_FindTheirMeanAndCorrelation()
    {
        var random = new Random(7);
        var batches = Enumerable.Range(0, 400).Select(_ =>
        {
            var p = MathNet.Numerics.Distributions.Beta.Sample(random, 28, 7);
            return (288, MathNet.Numerics.Distributions.Binomial.Sample(random, p, 288));
        }).ToList();
        var pooled = PooledGermination.Of(batches);
        Assert.Equal(0.8, pooled.Mean.Value, 0.01);
        Assert.Equal(1 / 36d, pooled.Correlation, 0.006);

        // Adding up counts would claim to know it three times better than it is known.
        Assert.True(pooled.StandardError > 2.5 * Math.Sqrt(0.16 / (400 * 288)));
        Assert.InRange(0.8, pooled.Interval95.Low.Value, pooled.Interval95.High.Value);
    }

    [Fact]
    public void Pooled_OneBatchOrAllUp_HasNoCorrelation()
    {
        Assert.Equal(0, PooledGermination.Of([(50, 40)]).Correlation);
        Assert.Equal((1d, 0d), (PooledGermination.Of([(50, 50), (20, 20)]).Mean.Value, PooledGermination.Of([(50, 50), (20, 20)]).StandardError));
        Assert.Throws<InputOutOfRange>(() => PooledGermination.Of([]));
        Assert.Throws<InputOutOfRange>(() => PooledGermination.Of([(10, 11)]));
    }

    /// <summary>By hand, three lots, two-sided 5 %: the largest needs z &gt; 2.394 (0.05 ÷ 3), the next 2.241 (÷ 2), the last 1.960.</summary>
    [Fact]
    public void LotDifference_ThreeLots_StepsDownAsHolmDoes()
    {
        (Fraction, double, Fraction) Lot(double found, double error) => (new Fraction(found), error, new Fraction(0.85));
        Assert.Equal(
            [LotVerdict.Worse, LotVerdict.NoDifference, LotVerdict.NoDifference],
            LotDifference.Of([Lot(0.70, 0.04), Lot(0.712, 0.04), Lot(0.84, 0.01)]).Select((verdict, index) => verdict));
        Assert.Equal(
            [LotVerdict.Worse, LotVerdict.Worse, LotVerdict.NoDifference],
            LotDifference.Of([Lot(0.70, 0.04), Lot(0.70, 0.04), Lot(0.82, 0.001)]));
        Assert.Equal([LotVerdict.Better], LotDifference.Of([Lot(0.98, 0.04)]));
    }

    [Fact]
    public void LotDifference_NoTrueDifference_CallsOneInTwentySeasonsAtMost()
    {
        var random = new Random(11);
        var called = 0;
        for (var season = 0; season < 2000; season++)
        {
            // Every lot lies exactly at the margin: the hardest case that is no difference.
            var lots = Enumerable.Range(0, 20).Select(_ => (
                new Fraction(Math.Clamp(0.80 + (0.03 * MathNet.Numerics.Distributions.Normal.Sample(random, 0, 1)), 0, 1)), 0.03, new Fraction(0.85))).ToList();
            called += LotDifference.Of(lots).Any(verdict => verdict != LotVerdict.NoDifference) ? 1 : 0;
        }

        Assert.InRange(called / 2000d, 0.005, 0.06);
    }
}
