using Nursery.Agronomy.Emergence;
using Nursery.Agronomy.Forecast;
using Xunit;

namespace Nursery.Agronomy.Tests.Forecast;

public sealed class EmergenceOutlookTests
{
    private static readonly CropEmergence Tomato = EmergenceDefaults.Find("Tomato")!;

    private static readonly ForecastQuestion Plain = new(
        Tomato.Rate, Tomato.Curve, 288, 1, BetaShape.Of(new Fraction(0.85)), TemperatureRecord.Constant(new Temperature(25)), [], 0, 230);

    private static readonly ForecastQuestion Over = Plain with { Counts = [new(6, CountKind.Seedlings, 120, 288), new(20, CountKind.Seedlings, 200, 288)], AsOfDay = 20 };

    [Fact]
    public void UpAt_RunsFromNothingToTheFinalFraction()
    {
        var outlook = EmergenceOutlook.Of(Plain);
        var days = Enumerable.Range(0, 40).Select(day => outlook.UpAt(day)).ToList();
        Assert.Equal(0, days[0].High, 0.001);
        Assert.Equal(outlook.Forecast.FinalFraction.Median, days[^1].Median, 0.01);
        Assert.All(days.Zip(days.Skip(1)), pair => Assert.True(pair.First.Median <= pair.Second.Median + 0.003));
        Assert.All(days, day => Assert.True(day.Low <= day.Median && day.Median <= day.High));
    }

    /// <summary>On the day of the last count the band is the count, and it opens after it.</summary>
    [Fact]
    public void UpAt_TheLastCount_IsTheCount()
    {
        var early = EmergenceOutlook.Of(Plain with { Counts = [new(7, CountKind.Seedlings, 130, 288)], AsOfDay = 7 });
        Assert.Equal(130 / 288d, early.UpAt(7).Median, 0.01);
        Assert.True(early.UpAt(7).High - early.UpAt(7).Low < 0.03);
        Assert.True(early.UpAt(10).High - early.UpAt(10).Low > 0.06);
    }

    [Fact]
    public void DayOfHalf_WithoutCounts_IsAboutTheRates()
    {
        var half = EmergenceOutlook.Of(Plain).DayOfHalf()!.Value;
        var plain = Tomato.Rate.DaysToHalf(new Temperature(25))!.Value;
        Assert.InRange(half.Median, plain * 0.97, plain * 1.15);
        Assert.True(half.Low < plain * 0.75 && half.High > plain * 1.4);
        Assert.Null(EmergenceOutlook.Of(Plain with { Temperatures = TemperatureRecord.Constant(new Temperature(3)) }).DayOfHalf());
    }

    /// <summary>E(w − X)⁺ is the sum of the chances below, a second way over the same distribution.</summary>
    [Theory]
    [InlineData(200)]
    [InlineData(240)]
    [InlineData(270)]
    public void MissingOf_IsTheSumOfTheChancesBelow(int wanted)
    {
        var outlook = EmergenceOutlook.Of(Plain with { Survival = new BetaShape(38, 2) });
        Assert.Equal(Enumerable.Range(1, wanted).Sum(plants => 1 - outlook.ChanceOf(plants).Value), outlook.MissingOf(wanted), 0.1);
    }

    [Fact]
    public void ShortStand_TwoHundredOf230_IsMaterial()
    {
        Assert.Equal(1, ShortStand.Chance(EmergenceOutlook.Of(Over), 230).Value, 0.01);
        Assert.Equal(0, ShortStand.Chance(EmergenceOutlook.Of(Over), 190).Value, 0.01);

        // Of 100 plants 95 are short and 96 are not; of 20, 17 and 18.
        Assert.Equal((96, 18), (ShortStand.Enough(100), ShortStand.Enough(20)));
        foreach (var wanted in Enumerable.Range(3, 300))
        {
            Assert.True(!ShortStand.IsMaterial(wanted, ShortStand.Enough(wanted)) && ShortStand.IsMaterial(wanted, ShortStand.Enough(wanted) - 1));
        }
    }

    /// <summary>Thirty plants missing for certain, 68 usable of 72: one tray, two only when a missing plant is dear.</summary>
    [Fact]
    public void Resow_Best_CostsNoMoreThanAnyNumberOfTrays()
    {
        var outlook = EmergenceOutlook.Of(Over);
        var question = new ResowQuestion(BetaShape.Of(new Fraction(0.9), 60), 2, 24, 50) { Survival = new BetaShape(38, 2) };
        foreach (var missing in new[] { 0.1, 0.5, 1.2, 5 })
        {
            var costs = new RemedyCosts(missing, 0.2);
            var best = Resow.Best(outlook, 230, question, costs);
            Assert.Equal(Simulated(best.Trays, missing), best.Cost, 0.03 * best.CostOfNothing);
            foreach (var trays in Enumerable.Range(0, 6))
            {
                Assert.True(best.Cost <= Simulated(trays, missing) + (0.03 * best.CostOfNothing), $"{missing}: {best} against {trays} trays");
            }
        }

        Assert.Equal(0, Resow.Best(outlook, 190, question, new RemedyCosts()).Trays);
        Assert.Equal(0, Resow.Best(outlook, 230, question with { MostTrays = 0 }, new RemedyCosts()).Trays);
    }

    /// <summary>Four thousand resows drawn seed by seed beside a stand of 200.</summary>
    private static double Simulated(int trays, double missingPlant)
    {
        var random = new Random(7);
        var sum = 0d;
        for (var run = 0; run < 4000; run++)
        {
            var p = MathNet.Numerics.Distributions.Beta.Sample(random, 54, 6);
            var survives = MathNet.Numerics.Distributions.Beta.Sample(random, 38, 2);
            var up = MathNet.Numerics.Distributions.Binomial.Sample(random, (1 - ((1 - p) * (1 - p))) * survives, 24 * trays);
            sum += Math.Max(0, 230 - 200 - up) / 4000d;
        }

        return (trays * 24 * 0.2) + (missingPlant * sum);
    }

    [Fact]
    public void Resow_OutOfRange_NamesTheInput()
    {
        var outlook = EmergenceOutlook.Of(Plain);
        var question = new ResowQuestion(Plain.Prior, 1, 72, 5);
        Assert.Equal("seedsPerCell", Assert.Throws<InputOutOfRange>(() => Resow.Best(outlook, 230, question with { SeedsPerCell = 0 }, new())).Input);
        Assert.Equal("costs.resownCell", Assert.Throws<InputOutOfRange>(() => Resow.Best(outlook, 230, question, new(1, double.NaN))).Input);
    }

    [Fact]
    public void ResowTemperature_SetsTheLastDay_WhenTraysAreOffTheHeat()
    {
        var cold = Plain with { Temperatures = new TemperatureRecord([(0, new Temperature(25)), (9, new Temperature(14))]), DueDay = 60, GrowDays = 35, AsOfDay = 9 };
        Assert.True(EmergenceForecast.Of(cold).LastResowDay < EmergenceForecast.Of(cold with { ResowTemperature = new Temperature(25) }).LastResowDay);
    }
}
