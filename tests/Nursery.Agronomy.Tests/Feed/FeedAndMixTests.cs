using System.Globalization;
using CsCheck;
using Nursery.Agronomy.Feed;
using Nursery.Agronomy.Mix;
using Xunit;

namespace Nursery.Agronomy.Tests.Feed;

public sealed class FeedAndMixTests
{
    /// <summary>Ounces by target, fertilizer and injector: tests/reference/09a (S80–S84, S88), within 1.5 % or the printed rounding; two rows
    /// the table itself calls wrong are left out.</summary>
    [Fact]
    public void Feed_PrintedCharts_Agree()
    {
        var rows = Published.Rows("09a_ppm_examples.csv").Where(row => !row["note"].Contains("SOURCE ERROR", StringComparison.Ordinal)).ToList();
        Assert.Equal(15, rows.Count);
        foreach (var row in rows)
        {
            var ratio = double.Parse(row["injector_ratio"].Split(':')[1], CultureInfo.InvariantCulture);
            var feed = FeedSolution.Of(row.Number("target_ppm"), Fraction.FromPercent(row.Number("element_pct")), Volume.FromGallons(100), ratio);
            var gallons = double.Parse(row["tank_gal"].Split(' ')[0], CultureInfo.InvariantCulture);
            var found = ratio == 1
                ? feed.Fertilizer.Ounces
                : new Mass(feed.PerLiterConcentrate.Grams * Volume.FromGallons(gallons).Liters).Ounces;
            Assert.Equal(row.Number("expected"), found, Math.Max(0.5, 0.015 * found));
        }
    }

    [Fact]
    public void Feed_AnyStrength_IsMilligramsInALiter() => Gen.Select(Gen.Double[1, 500], Gen.Double[1, 60], Gen.Double[1, 2000], Gen.Double[1, 400]).Sample(
        (ppm, percent, liters, ratio) =>
        {
            var feed = FeedSolution.Of(ppm, Fraction.FromPercent(percent), new Volume(liters), ratio);
            Assert.Equal(ppm, feed.Fertilizer.Grams * 1000 * percent / 100 / liters, 1e-6 * ppm);
            Assert.Equal(feed.Fertilizer.Grams, feed.PerLiterConcentrate.Grams * liters / ratio, 1e-6 * feed.Fertilizer.Grams);

            // 1 oz in 100 US gallons is 74.9 ppm (tests/reference README of the 75 method).
            Assert.Equal(ppm / 74.9 / (percent / 100), feed.PerHundredGallons.Ounces, 0.001 * feed.PerHundredGallons.Ounces);
        });

    [Theory]
    [InlineData(0, 20, 100, 1)]
    [InlineData(200, 0, 100, 1)]
    [InlineData(200, 101, 100, 1)]
    [InlineData(200, 20, 0, 1)]
    [InlineData(200, 20, 100, 0)]
    [InlineData(double.NaN, 20, 100, 1)]
    public void Feed_OutOfRange_Throws(double ppm, double percent, double liters, double ratio) =>
        Assert.Throws<InputOutOfRange>(() => FeedSolution.Of(ppm, Fraction.FromPercent(percent), new Volume(liters), ratio));

    /// <summary>By hand: 10 × 72 × 43 mL = 30.96 L; × 1.1 × 1.05 = 35.7588 L; gypsum at 1200 g/m³: 42.91 g.</summary>
    [Fact]
    public void Mix_TenTrays_EqualsTheSumByHand()
    {
        var mix = MixVolume.Of(10, 72, Volume.FromMilliliters(43), new Fraction(0.1), new Fraction(0.05), [new("gypsum", new Mass(1200))]);
        Assert.Equal(35.7588, mix.Volume.Liters, 1e-9);
        Assert.Equal(1.26281, mix.Volume.CubicFeet, 1e-5);
        Assert.Equal(("gypsum", 42.91056), (mix.Amendments[0].Name, Math.Round(mix.Amendments[0].Mass.Grams, 6)));
        Assert.Equal(1, mix.PackagesOf(Volume.FromCubicFeet(3.8), 1.8));
        Assert.Equal(4, mix.PackagesOf(new Volume(10), 1));
    }

    /// <summary>Cell volumes of the Ontario ministry's plug-tray leaflet; between them a cell of a finer tray is smaller.</summary>
    [Fact]
    public void CellVolume_PublishedTrays_AgreeAndFallBetween()
    {
        Assert.Equal([171, 106, 66, 43, 23, 11, 7], CellVolume.Known.Select(cells => Math.Round(CellVolume.Of(cells).Milliliters, 9)));
        for (var cells = 25; cells <= 288; cells++)
        {
            Assert.True(CellVolume.Of(cells).Milliliters < CellVolume.Of(cells - 1).Milliliters);
        }

        Assert.Throws<InputOutOfRange>(() => CellVolume.Of(23));
    }

    /// <summary>Units: tests/reference/08b (S73–S75): exact ones to 1e-9, worked ones to their printed digits.</summary>
    [Fact]
    public void Volume_Units_AreExact()
    {
        Assert.Equal(46656, Volume.FromCubicYards(1).CubicInches, 1e-6);
        Assert.Equal(764.554857984, Volume.FromCubicYards(1).Liters, 1e-9);
        Assert.Equal(231, Volume.FromGallons(1).CubicInches, 1e-9);
        Assert.Equal(0.45, Volume.FromCubicInches(785).CubicFeet, 0.005);
        Assert.Equal(1.9, Volume.FromCubicInches(441.484).Gallons, 0.05);
        Assert.Equal(785, Math.PI * 25 * 10, 0.5);
        Assert.Equal(324, Volume.FromCubicYards(1).CubicFeet * 12, 1e-9);
        Assert.Equal(108, Volume.FromCubicYards(1).CubicFeet * 12 / 3, 1e-9);
        Gen.Double[0.001, 1e6].Sample(liters =>
        {
            var volume = new Volume(liters);
            Assert.Equal(liters, Volume.FromGallons(volume.Gallons).Liters, 1e-9 * liters);
            Assert.Equal(liters, Volume.FromCubicFeet(volume.CubicFeet).Liters, 1e-9 * liters);
            Assert.Equal(liters, Volume.FromMilliliters(volume.Milliliters).Liters, 1e-9 * liters);
        });
    }

    /// <summary>Bands suitable for seedlings by two methods: tests/reference/09b rows 22 and 23 (S86).</summary>
    [Fact]
    public void SeedlingConductivity_ByMethod_IsThePrintedBand()
    {
        foreach (var row in Published.Rows("09b_ec_interpretation.csv").Where(row => row["indication"] == "suitable for seedlings"))
        {
            var method = row["method"] == "SME" ? ConductivityMethod.SaturatedMedia : ConductivityMethod.OneToTwo;
            Assert.Equal((row.Number("low_mS_cm"), row.Number("high_mS_cm")), FeedStrength.SeedlingConductivity(method));
        }

        Assert.Equal((0, 0), FeedStrength.NitrogenPpm(FeedStage.BeforeCotyledons));
        Assert.True(FeedStrength.NitrogenPpm(FeedStage.TrueLeaves).From > FeedStrength.NitrogenPpm(FeedStage.Cotyledons).To);
    }
}
