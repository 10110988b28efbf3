using Nursery.Agronomy.Forecast;
using Nursery.Agronomy.Sowing;
using Xunit;

namespace Nursery.Agronomy.Tests.Sowing;

public sealed class SeedPriorTests
{
    /// <summary>By hand: (0.90 − 0.05) × 1 = 0.85; standard deviation √(0.85 × 0.15 ÷ 36) = 0.0595.</summary>
    [Fact]
    public void Of_LabelLessHouse_HasSixPointsOfSpread()
    {
        var prior = SeedPrior.Of(new Fraction(0.90), new Fraction(1));
        Assert.Equal((0.85, 0.0595), (Math.Round(prior.Mean, 9), Math.Round(prior.Spread, 4)));
        Assert.Equal(0.85 * 12 / 99, SeedPrior.Of(new Fraction(0.90), new Fraction(12d / 99)).Mean, 1e-9);
        Assert.Equal(0.995, SeedPrior.Of(new Fraction(1), new Fraction(1), housePoints: 20).Mean, 1e-12);
        Assert.Throws<InputOutOfRange>(() => SeedPrior.Of(new Fraction(0.9), new Fraction(0)));
        Assert.Throws<InputOutOfRange>(() => SeedPrior.Of(new Fraction(0.9), new Fraction(1), double.NaN));
    }

    [Theory]
    [InlineData(100, 96, false)]
    [InlineData(100, 95, true)]
    [InlineData(20, 18, false)]
    [InlineData(20, 17, true)]
    [InlineData(100, 120, false)]
    public void ShortStand_ThreePlantsAndFivePercent_IsMaterial(int wanted, int usable, bool material) =>
        Assert.Equal(material, ShortStand.IsMaterial(wanted, usable));

    [Fact]
    public void ShortStand_BeforeOneAndAHalfTimesHalf_CannotBeKnown()
    {
        Assert.True(ShortStand.CanBeKnownInTime(6, 9));
        Assert.False(ShortStand.CanBeKnownInTime(6, 8.9));
        Assert.False(ShortStand.CanBeKnownInTime(6, -3));
    }
}
