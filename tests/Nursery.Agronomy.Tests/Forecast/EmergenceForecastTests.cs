using CsCheck;
using Nursery.Agronomy.Emergence;
using Nursery.Agronomy.Forecast;
using Xunit;

namespace Nursery.Agronomy.Tests.Forecast;

public sealed class EmergenceForecastTests
{
    private static readonly CropEmergence Tomato = EmergenceDefaults.Find("Tomato")!;

    private static readonly ForecastQuestion Plain = new(
        Tomato.Rate, Tomato.Curve, 288, 1, BetaShape.Of(new Fraction(0.85)), TemperatureRecord.Constant(new Temperature(25)), [], 0, 230);

    [Fact]
    public void Forecast_WithoutCounts_IsThePrior()
    {
        var forecast = EmergenceForecast.Of(Plain);
        Assert.Equal(MathNet.Numerics.Distributions.Beta.InvCDF(29.75, 5.25, 0.5), forecast.FinalFraction.Median, 0.004);

        // Wider than the beta by the chance of 288 seeds.
        Assert.InRange(forecast.FinalFraction.Low, 0.70, MathNet.Numerics.Distributions.Beta.InvCDF(29.75, 5.25, 0.05));
        Assert.Equal(forecast.Stand.Median, 288 * forecast.FinalFraction.Median, 0.6);

        // A little later than the plain curve, as some lots have a share of slow seeds.
        var plain = Tomato.Rate.DaysToHalf(new Temperature(25))!.Value * Tomato.Curve.ProgressTo(new Fraction(0.9));
        Assert.InRange(forecast.DayOf90Percent!.Value, plain - 0.35, plain + 2);
    }

    /// <summary>One seed a cell and no deaths: the chance is that of the beta-binomial, a second way.</summary>
    [Theory]
    [InlineData(220)]
    [InlineData(245)]
    [InlineData(265)]
    public void ChanceWantedMet_WithoutCounts_IsTheBetaBinomial(int wanted) => Assert.Equal(
        new Agronomy.Sowing.SowingOptions(new Agronomy.Sowing.SowingQuestion(wanted, Plain.Prior, 72)).Chance(1, 288).Value,
        EmergenceForecast.Of(Plain with { WantedPlants = wanted }).ChanceWantedMet.Value, 0.02);

    [Fact]
    public void Forecast_WhenAllIsOver_IsWhatWasCounted()
    {
        var forecast = EmergenceForecast.Of(Plain with { Counts = [Count(5, 90), Count(8, 200), Count(14, 205), Count(20, 205)], AsOfDay = 20 });
        Assert.Equal(205, forecast.Stand.Median, 2d);
        Assert.True(forecast.Stand.High - forecast.Stand.Low < 14);
        Assert.True(forecast.ChanceWantedMet.Value < 0.01);
    }

    [Fact]
    public void Forecast_CountsAfterTheDayAsked_AreLeftOut()
    {
        var early = Plain with { Counts = [Count(5, 90)], AsOfDay = 5 };
        Assert.Equal(EmergenceForecast.Of(early), EmergenceForecast.Of(early with { Counts = [Count(5, 90), Count(12, 20)] }));
    }

    [Fact]
    public void Forecast_SameQuestion_GivesTheSameBits() =>
        Assert.Equal(EmergenceForecast.Of(new BatchTruth(3).Question(9)), EmergenceForecast.Of(new BatchTruth(3).Question(9)));

    [Fact]
    public void Forecast_BlanksAndCellsUp_SayTheSame()
    {
        EmergenceForecast With(CountKind what, int value) => EmergenceForecast.Of(Plain with { SeedsPerCell = 2, Counts = [new(8, what, value, 288)], AsOfDay = 8 });
        Assert.Equal(With(CountKind.CellsUp, 250), With(CountKind.Blanks, 38));
    }

    [Fact]
    public void Forecast_AnyBatch_StaysWithinBounds() => Gen.Select(Gen.Int[0, 5000], Gen.Double[0, 40]).Sample(
        (seed, asOf) =>
        {
            var truth = new BatchTruth(seed);
            var forecast = EmergenceForecast.Of(truth.Question(asOf) with { Survival = new BetaShape(38, 2) });
            foreach (var (interval, most) in new[] { (forecast.FinalFraction, 1d), (forecast.Stand, truth.Cells), (forecast.UsablePlants, truth.Cells) })
            {
                Assert.True(interval.Low >= 0 && interval.Low <= interval.Median && interval.Median <= interval.High && interval.High <= most);
            }

            Assert.True(forecast.UsablePlants.Median <= forecast.Stand.Median);
        },
        iter: 30);

    [Fact]
    public void LastResowDay_IsDueDayLessGrowingLessEmergence()
    {
        var forecast = EmergenceForecast.Of(Plain with { DueDay = 60, GrowDays = 35 });
        Assert.Equal(Math.Floor(25 - forecast.DayOf90Percent!.Value), forecast.LastResowDay);
        Assert.Null(EmergenceForecast.Of(Plain with { DueDay = 60 }).LastResowDay);
    }

    [Fact]
    public void Forecast_TooColdToCome_HasNoDay() => Assert.Null(
        EmergenceForecast.Of(Plain with { Temperatures = TemperatureRecord.Constant(new Temperature(3)) }).DayOf90Percent);

    [Fact]
    public void Question_OutOfRange_NamesTheInput()
    {
        Check(Plain with { Cells = 0 }, "cells");
        Check(Plain with { SeedsPerCell = 51 }, "seedsPerCell");
        Check(Plain with { AsOfDay = double.NaN }, "asOfDay");
        Check(Plain with { Counts = [Count(3, 289)] }, "counts.value");
        Check(Plain with { Counts = [new(3, CountKind.Seedlings, 5, 289)] }, "counts.cells");
        Check(Plain with { GrowDays = -1 }, "growDays");
    }

    private static EmergenceCount Count(double day, int value) => new(day, CountKind.Seedlings, value, 288);

    private static void Check(ForecastQuestion question, string input) =>
        Assert.Equal(input, Assert.Throws<InputOutOfRange>(() => EmergenceForecast.Of(question)).Input);
}
