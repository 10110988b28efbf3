using Nursery.Agronomy.Emergence;
using Xunit;

namespace Nursery.Agronomy.Tests.Emergence;

/// <summary>Against the published days table: tests/reference/02a, days S10 (Knott's Handbook 1997 after Harrington &amp; Minges 1954), percent
/// normal S12; cardinal temperatures 02b (S11 Oregon State University Extension, S13 Texas A&amp;M AgriLife Extension).</summary>
public sealed class CropEmergenceTests
{
    private static readonly Fraction Half = new(0.5);

    [Fact]
    public void Defaults_HaveEveryCropOfTheTable() => Assert.Equal(
        Published.Rows("02a_days_to_emergence_harrington.csv").Select(row => row["crop"]).Distinct(), EmergenceDefaults.All.Select(crop => crop.Name));

    [Fact]
    public void DaysTo_NoGerminationOrNotTested_IsNullWithAReason()
    {
        foreach (var row in Published.Rows("02a_days_to_emergence_harrington.csv").Where(row => row["days_knott1997_S10"] is "NG" or "NT"))
        {
            var crop = EmergenceDefaults.Find(row["crop"])!;
            var temperature = Temperature.FromDegrees(row.Number("soil_temp_C"));
            Assert.Null(crop.DaysTo(Half, temperature));
            Assert.Contains(row["days_knott1997_S10"] == "NG" ? "no germination" : "no", crop.WhyNone(temperature), StringComparison.Ordinal);
        }
    }

    [Fact]
    public void DaysTo_EveryPrintedNumberAbove32F_IsANumberNearIt()
    {
        var errors = new List<double>();
        foreach (var crop in EmergenceDefaults.All)
        {
            foreach (var point in crop.Printed.Where(point => point is { Days: not null, Temperature.Celsius: > 0 }))
            {
                var days = crop.DaysTo(Half, point.Temperature)!.Value;
                var allowed = Math.Max(2.2, 0.12 * point.Days!.Value);
                Assert.True(Math.Abs(days - point.Days.Value) <= allowed, $"{crop.Name} at {point.Temperature}: {days:0.0}, printed {point.Days}");
                errors.Add(Math.Abs(days - point.Days.Value));
            }
        }

        Assert.True(errors.Count > 80 && errors.Average() < 0.5);
    }

    [Fact]
    public void NormalFraction_AtPrintedTemperatures_IsPercentOverItsMaximum()
    {
        foreach (var crop in Published.Rows("02a_days_to_emergence_harrington.csv").GroupBy(row => row["crop"]))
        {
            var tested = crop.Where(row => row["pct_normal_seedlings_S12"].Length > 0
                && (row["days_knott1997_S10"] != "NT" || row["pct_normal_seedlings_S12"] != "0")).ToList();
            var most = tested.Max(row => row.Number("pct_normal_seedlings_S12"));
            Assert.All(tested, row => Assert.Equal(
                row.Number("pct_normal_seedlings_S12") / most,
                EmergenceDefaults.Find(crop.Key)!.Normal.At(Temperature.FromDegrees(row.Number("soil_temp_C"))).Value, 1e-12));
        }
    }

    /// <summary>99 percent at 68 °F, 12 at 86 °F: S12.</summary>
    [Fact]
    public void NormalFraction_Lettuce_FallsInHeat()
    {
        var lettuce = EmergenceDefaults.Find("lettuce")!;
        Assert.Equal(1, lettuce.Normal.At(Temperature.FromFahrenheit(68)).Value, 1e-12);
        Assert.Equal(12d / 99, lettuce.Normal.At(Temperature.FromFahrenheit(86)).Value, 1e-12);
        Assert.InRange(lettuce.Normal.At(Temperature.FromFahrenheit(77)).Value, 12d / 99, 1);
        Assert.NotNull(lettuce.DaysTo(Half, Temperature.FromFahrenheit(86)));
        Assert.Null(lettuce.DaysTo(Half, Temperature.FromFahrenheit(95)));
        Assert.True(lettuce.SleepsInHeat);
    }

    [Fact]
    public void Rate_RisesToTheOptimumAndFallsAfterIt()
    {
        foreach (var crop in EmergenceDefaults.All)
        {
            var (low, best, high) = (crop.Rate.Base.Celsius, crop.Rate.Optimum.Celsius, crop.Rate.Ceiling.Celsius);
            for (var step = 0; step < 50; step++)
            {
                var (up, down) = (low + ((best - low) * step / 50), best + ((high - best) * step / 50));
                Assert.True(crop.Rate.RateAt(new Temperature(up)) < crop.Rate.RateAt(new Temperature(up + ((best - low) / 50))));
                Assert.True(crop.Rate.RateAt(new Temperature(down)) > crop.Rate.RateAt(new Temperature(down + ((high - best) / 50))));
            }

            Assert.Equal(0, crop.Rate.RateAt(new Temperature(low)));
            Assert.Equal(0, crop.Rate.RateAt(new Temperature(high)));
        }
    }

    /// <summary>minimum ≤ optimum ≤ maximum of 02b, and the fitted base not above the printed minimum, the fitted ceiling not below the
    /// highest printed temperature with a number.</summary>
    [Fact]
    public void Parameters_AgainstTheCardinalTemperatures_AreInOrder()
    {
        foreach (var row in Published.Rows("02b_cardinal_soil_temperatures.csv").Where(row => row["min_F"].Length > 0 && row["optimum_F"].Length > 0 && row["max_F"].Length > 0))
        {
            Assert.True(row.Number("min_F") <= row.Number("optimum_F") && row.Number("optimum_F") <= row.Number("max_F"));
            if (EmergenceDefaults.Find(row["crop"]) is { } crop)
            {
                Assert.True(crop.Rate.Base.Celsius <= Temperature.FromFahrenheit((decimal)row.Number("min_F") + 1.5m).Celsius, $"{crop.Name}: base {crop.Rate.Base}");
            }
        }

        Assert.All(EmergenceDefaults.All, crop =>
        {
            Assert.True(crop.Rate.Ceiling.Celsius > crop.Printed.Where(point => point.Days is not null).Max(point => point.Temperature.Celsius));
            Assert.InRange(crop.Rate.Base.Celsius, (decimal)crop.Ranges.BaseC.Low - 0.5m, (decimal)crop.Ranges.BaseC.High + 0.5m);
        });
    }

    /// <summary>Base temperatures of Bierhuizen &amp; Wagenvoort 1974, from memory (tests/reference/06b, S51): in soil, so a soft check.</summary>
    [Fact]
    public void Bases_AgainstRememberedOnes_AreNearOnAverage()
    {
        var pairs = Published.Rows("06b_tmin_and_heat_sum_bw1974.csv")
            .Select(row => (Crop: EmergenceDefaults.Find(row["crop"]), Base: row.Number("tmin_C"))).Where(pair => pair.Crop is not null).ToList();
        Assert.Equal(9, pairs.Count);
        Assert.InRange(pairs.Average(pair => Math.Abs((double)pair.Crop!.Rate.Base.Celsius - pair.Base)), 0, 2.5);
    }

    /// <summary>Trade facts, common practice, no source: one constant 75 °F lies at the edge of both crops' bands.</summary>
    [Theory]
    [InlineData("Tomato", 80)]
    [InlineData("Pepper", 80)]
    [InlineData("Cabbage", 70)]
    [InlineData("Lettuce", 70)]
    [InlineData("Tomato", 75)]
    [InlineData("Cabbage", 75)]
    public void DaysTo_AtTheZonesOfTheTrade_IsWithinThreeDaysOfTheFastest(string name, int fahrenheit)
    {
        var crop = EmergenceDefaults.Find(name)!;
        var days = crop.DaysTo(Half, Temperature.FromFahrenheit(fahrenheit))!.Value;
        Assert.InRange(days, crop.Rate.DaysToHalf(crop.Rate.Optimum)!.Value, crop.Rate.DaysToHalf(crop.Rate.Optimum)!.Value + 3);
    }

    [Theory]
    [InlineData(-0.1)]
    [InlineData(50.1)]
    public void DaysTo_TemperatureOutOfRange_Says(double celsius)
    {
        var error = Assert.Throws<InputOutOfRange>(() => EmergenceDefaults.Find("Onion")!.DaysTo(Half, Temperature.FromDegrees(celsius)));
        Assert.Equal(("temperature", "°C", "0 to 50"), (error.Input, error.Unit, error.Range));
        Assert.Throws<InputOutOfRange>(() => Temperature.FromDegrees(double.NaN));
    }
}
