using MathNet.Numerics.Distributions;
using Nursery.Agronomy.Forecast;
using Xunit;

namespace Nursery.Agronomy.Tests.Forecast;

public sealed class SeedRecordTests
{
    [Fact]
    public void House_WithoutLots_IsTheUsual()
    {
        var (points, size) = SeedRecord.House([], -5, 35);
        Assert.Equal((-5, 35), (points, Math.Round(size, 9)));
    }

    /// <summary>By hand: three lots 2 points below their label each, and the usual 5 counting as three: −3.5.</summary>
    [Fact]
    public void House_OfThreeLots_GoesHalfWay() =>
        Assert.Equal(-3.5, SeedRecord.House([Lot(0.90, 0.88), Lot(0.85, 0.83), Lot(0.95, 0.93)], -5, 35).Points, 9);

    /// <summary>A second way: lots drawn from a known house are found again; one bad lot changes little.</summary>
    [Fact]
    public void House_OfManyDrawnLots_FindsWhatTheyWereDrawnFrom()
    {
        var random = new Random(7);
        List<(Fraction, Fraction)> lots = [.. Enumerable.Range(0, 200).Select(_ => Lot(0.90, Beta.Sample(random, 0.87 * 120, 0.13 * 120)))];
        var (points, size) = SeedRecord.House(lots, -5, 35);
        Assert.Equal(-3, points, 0.5);
        Assert.InRange(size, 90, 150);
        var (withBad, sizeWithBad) = SeedRecord.House([.. lots, Lot(0.90, 0.42)], -5, 35);
        Assert.Equal((points, size), (withBad, sizeWithBad));
    }

    [Fact]
    public void Lot_WithoutBatches_IsThePrior() => Assert.Equal(new BetaShape(29.75, 5.25), SeedRecord.Lot(new BetaShape(29.75, 5.25), []));

    /// <summary>By hand: 140 seeds are worth 70 at a within-lot size of 140; of Beta(30, 5) and 35 of 70 up the mean is 65 ÷ 105.</summary>
    [Fact]
    public void Lot_OfOneBatch_IsTheMeanByHand() =>
        Assert.Equal(65d / 105, SeedRecord.Lot(new BetaShape(30, 5), [(140, new Fraction(0.5))]).Mean, 9);

    [Fact]
    public void Lot_MuchBelowItsLabel_IsBelievedAfterAFewBatchesAndStaysWiderThanBatchesOfALotAre()
    {
        var bad = SeedRecord.Lot(new BetaShape(29.75, 5.25), [(576, new Fraction(0.42)), (576, new Fraction(0.44)), (576, new Fraction(0.40))]);
        Assert.InRange(bad.Mean, 0.40, 0.50);
        Assert.True(bad.A + bad.B < SeedRecord.WithinLotSize);
        Assert.True(bad.Spread < new BetaShape(29.75, 5.25).Spread);
    }

    [Fact]
    public void Record_OutOfRange_NamesTheInput()
    {
        Assert.Equal("usualPoints", Assert.Throws<InputOutOfRange>(() => SeedRecord.House([], 30, 35)).Input);
        Assert.Equal("usualSize", Assert.Throws<InputOutOfRange>(() => SeedRecord.House([], -5, 1)).Input);
        Assert.Equal("seeds", Assert.Throws<InputOutOfRange>(() => SeedRecord.Lot(new BetaShape(30, 5), [(0, new Fraction(0.5))])).Input);
    }

    private static (Fraction Label, Fraction Found) Lot(double label, double found) => (new Fraction(label), new Fraction(found));
}
