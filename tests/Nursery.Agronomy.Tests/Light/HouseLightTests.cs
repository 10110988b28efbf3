using Nursery.Agronomy.Light;
using Xunit;

namespace Nursery.Agronomy.Tests.Light;

public sealed class HouseLightTests
{
    /// <summary>Monthly maps of daily light outdoors in the United States (Korczynski, Logan &amp; Faust, HortTechnology 12: 12–16, 2002; from
    /// memory): about 43° north 10–15 mol in December and 40–45 in June.</summary>
    [Theory]
    [InlineData(355, 10, 15)]
    [InlineData(172, 40, 45)]
    public void Outside_UsualSky_IsAsMapped(int day, double from, double to) => Assert.InRange(
        HouseLight.Outside(new Latitude(43), day).Median * DailyLight.MolPerMegajoule, from, to);

    /// <summary>A second way: FAO-56 equation 35 worked by hand, (0.25 + 0.5 n/N) of what comes from outside the air.</summary>
    [Fact]
    public void Outside_AnyDay_IsEquation35OfThreeSkies()
    {
        for (var day = 1; day <= 366; day += 5)
        {
            var above = new DaySun(new Latitude(43), day).ExtraterrestrialMj;
            var outside = HouseLight.Outside(new Latitude(43), day);
            Assert.Equal(0.5 * above, outside.Median, 1e-9);
            Assert.Equal(0.3 * above, outside.Low, 1e-9);
            Assert.Equal(0.7 * above, outside.High, 1e-9);
        }
    }

    [Fact]
    public void Inside_Cover_LetsItsShareThrough()
    {
        var (outside, inside) = (HouseLight.Outside(new Latitude(43), 80), HouseLight.Inside(new Latitude(43), 80, new Fraction(0.6)));
        Assert.Equal(outside.High * 2.05 * 0.6, inside.High, 1e-9);
        Assert.Equal(outside.Median * 0.6, HouseLight.InsideMj(new Latitude(43), 80, new Fraction(0.6)), 1e-9);
        Assert.Equal(0, HouseLight.Inside(new Latitude(89), 355, new Fraction(1)).High);
    }
}
