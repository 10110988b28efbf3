using Nursery.Agronomy.Emergence;
using Nursery.Agronomy.Sowing;
using Xunit;

namespace Nursery.Agronomy.Tests.Emergence;

public sealed class ExpectedUpTests
{
    private static readonly CropEmergence Pepper = EmergenceDefaults.Find("Pepper")!;
    private static readonly Temperature Media = Temperature.FromFahrenheit(77);

    [Fact]
    public void Of_TheDayHalfAreUp_HoldsHalfOfWhatGerminates()
    {
        var days = (int)Math.Round(Pepper.Rate.DaysToHalf(Media)!.Value);
        var prior = SeedPrior.Of(new Fraction(0.90), new Fraction(1), housePoints: 0);

        var up = ExpectedUp.Of(Pepper.Rate, Pepper.Curve, Media, days, prior, 1);

        Assert.InRange(0.45, up.Low.Value, up.High.Value);
    }

    /// <summary>By hand: long after, all that germinates is up; of Beta(31.5, 3.5) the 5 and 95 % are 0.807 and 0.967 (NIST DLMF 8.17, the
    /// regularized incomplete beta function, worked with another program), two seeds a cell leave 1 − (1 − p)² = 0.963 and 0.999.</summary>
    [Fact]
    public void Of_LongAfter_IsWhatGerminates()
    {
        var prior = BetaShape.Of(new Fraction(0.90), 35);

        var one = ExpectedUp.Of(Pepper.Rate, Pepper.Curve, Media, 300, prior, 1);
        var two = ExpectedUp.Of(Pepper.Rate, Pepper.Curve, Media, 300, prior, 2);

        Assert.Equal((0.807, 0.967), (Math.Round(one.Low.Value, 3), Math.Round(one.High.Value, 3)));
        Assert.Equal(1 - Math.Pow(1 - one.Low.Value, 2), two.Low.Value, 9);
    }

    [Fact]
    public void Of_DayByDay_NeverFallsAndLowIsNotAboveHigh()
    {
        var prior = SeedPrior.Of(new Fraction(0.85), new Fraction(0.95));
        var last = ExpectedUp.Of(Pepper.Rate, Pepper.Curve, Media, 0, prior, 2);
        Assert.Equal((0, 0), (last.Low.Value, last.High.Value));
        for (var day = 1; day <= 40; day++)
        {
            var up = ExpectedUp.Of(Pepper.Rate, Pepper.Curve, Media, day, prior, 2);
            Assert.True(up.Low.Value <= up.High.Value && up.Low.Value >= last.Low.Value && up.High.Value >= last.High.Value, $"day {day}");
            last = up;
        }
    }

    [Theory]
    [InlineData(-1, 1)]
    [InlineData(5, 0)]
    public void Of_OutOfRange_SaysSo(int days, int seeds) => Assert.Throws<InputOutOfRange>(
        () => ExpectedUp.Of(Pepper.Rate, Pepper.Curve, Media, days, BetaShape.Of(new Fraction(0.9), 35), seeds));
}
