using CsCheck;
using Nursery.Agronomy.Emergence;
using Xunit;

namespace Nursery.Agronomy.Tests.Emergence;

public sealed class ProgressTests
{
    /// <summary>Brewster, Onions and Other Vegetable Alliums, 2008, ch. 4: base 2.5 °C, 80 °C·days, 22.5 °C: 4 days; the line holds from 5 to
    /// 25 °C (tests/reference/06a rows 1 and 3, S50). A temperature at or under the base has no days.</summary>
    [Fact]
    public void DaysToHalf_OnionOfTheBook_IsFourDays()
    {
        var rows = Published.Rows("06a_thermal_time_examples.csv");
        var onion = new RateModel(
            Temperature.FromDegrees(rows[0].Number("base_temp_C")), rows[0].Number("thermal_time_Cday"), new Temperature(25), new Temperature(35));
        Assert.Equal(rows[0].Number("expected_days_to_50pct"), onion.DaysToHalf(Temperature.FromDegrees(rows[0].Number("temp_C")))!.Value, 1e-12);
        for (var celsius = 5m; celsius <= 25; celsius += 0.5m)
        {
            Assert.Equal((double)(celsius - 2.5m) / 80, onion.RateAt(new Temperature(celsius)), 1e-12);
        }

        Assert.Null(onion.DaysToHalf(new Temperature(2.5m)));
        Assert.Null(onion.DaysToHalf(new Temperature(-3)));
    }

    /// <summary>A second way: the rate summed over a thousand slices a day.</summary>
    [Fact]
    public void ProgressAt_AnyRecord_EqualsNumericIntegration() => Gen
        .Select(Gen.Int[0, 23], Gen.Double[0, 40].Array[1, 8], Gen.Double[0.1, 20])
        .Sample(
            (crop, degrees, day) =>
            {
                var rate = EmergenceDefaults.All[crop].Rate;
                var record = new TemperatureRecord([.. degrees.Select((celsius, index) => (index * 1.5, Temperature.FromDegrees(celsius)))]);
                var (slices, sum) = ((int)(day * 1000), 0d);
                for (var slice = 0; slice < slices; slice++)
                {
                    var at = (slice + 0.5) * day / slices;
                    sum += rate.RateAt(Temperature.FromDegrees(degrees[Math.Min((int)(at / 1.5), degrees.Length - 1)])) * day / slices;
                }

                Assert.Equal(sum, record.ProgressAt(rate, day), 0.005);
            },
            iter: 200);

    [Fact]
    public void DayOf_ProgressReached_IsTheInverse() => Gen
        .Select(Gen.Int[0, 23], Gen.Double[16, 30].Array[1, 8], Gen.Double[0.01, 3])
        .Sample((crop, degrees, progress) =>
        {
            var rate = EmergenceDefaults.All[crop].Rate;
            var record = new TemperatureRecord([.. degrees.Select((celsius, index) => ((double)index, Temperature.FromDegrees(celsius)))]);
            if (record.DayOf(rate, progress) is { } day)
            {
                Assert.Equal(progress, record.ProgressAt(rate, day), 1e-9);
            }
            else
            {
                Assert.Equal(0, rate.RateAt(record.Last));
            }
        });

    [Fact]
    public void Curve_ProgressAndShare_AreInverse() => Gen
        .Select(Gen.Double[0.01, 0.99], Gen.Double[0.05, 0.6], Gen.Bool)
        .Sample((share, sigma, normal) =>
        {
            var curve = new EmergenceCurve(normal ? SpreadFamily.LogNormal : SpreadFamily.LogLogistic, sigma);
            Assert.Equal(share, curve.ShareAt(curve.ProgressTo(new Fraction(share))).Value, 1e-9);
            Assert.Equal(0.5, curve.ShareAt(1).Value, 1e-12);
            Assert.True(curve.ProgressTo(new Fraction(share)) <= curve.ProgressTo(new Fraction(Math.Min(0.99, share + 0.005))));
        });

    /// <summary>σ is the standard deviation of ln progress in both families: by numeric integration of the curve.</summary>
    [Theory]
    [InlineData(SpreadFamily.LogLogistic)]
    [InlineData(SpreadFamily.LogNormal)]
    public void Curve_Sigma_IsTheSpreadOfLogProgress(SpreadFamily family)
    {
        var curve = new EmergenceCurve(family, 0.2);
        var variance = 0d;
        for (var log = -4d; log < 4; log += 0.001)
        {
            variance += (log + 0.0005) * (log + 0.0005) * (curve.ShareAt(Math.Exp(log + 0.001)).Value - curve.ShareAt(Math.Exp(log)).Value);
        }

        Assert.Equal(0.2, Math.Sqrt(variance), 1e-4);
    }

    [Fact]
    public void VarietySpeed_ManyBatches_OutweighTheCrop()
    {
        Assert.Equal(1, VarietySpeed.Of([]).Factor, 1e-12);
        Assert.Equal(Math.Exp(-0.2), VarietySpeed.Of([], isPrimed: true).Factor, 1e-12);

        // One batch as uncertain as the lots differ: half way.
        Assert.Equal(Math.Exp(0.15), VarietySpeed.Of([(0.3, 0.25)]).Factor, 1e-12);
        Assert.Equal(Math.Exp(0.3), VarietySpeed.Of([.. Enumerable.Repeat((0.3, 0.05), 200)]).Factor, 1e-3);
    }

    [Fact]
    public void TemperatureRecord_OutOfOrder_Says()
    {
        Assert.Throws<InputOutOfRange>(() => new TemperatureRecord([]));
        Assert.Throws<InputOutOfRange>(() => new TemperatureRecord([(1, new Temperature(20))]));
        Assert.Throws<InputOutOfRange>(() => new TemperatureRecord([(0, new Temperature(20)), (3, new Temperature(20)), (3, new Temperature(21))]));
        Assert.Throws<InputOutOfRange>(() => TemperatureRecord.Constant(new Temperature(20)).ProgressAt(EmergenceDefaults.All[0].Rate, double.NaN));
    }
}
