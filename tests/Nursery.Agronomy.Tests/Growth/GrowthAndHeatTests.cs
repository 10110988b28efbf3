using Nursery.Agronomy.Emergence;
using Nursery.Agronomy.Growth;
using Nursery.Agronomy.Heat;
using Xunit;

namespace Nursery.Agronomy.Tests.Growth;

public sealed class GrowthAndHeatTests
{
    private static readonly Temperature Guide = Temperature.FromFahrenheit(65);

    /// <summary>The guides themselves: in a house as warm as they have it the answer is their weeks less emergence (tests/reference/04a,
    /// tomato 5–6 weeks, S21).</summary>
    [Fact]
    public void ReadyDays_AtTheGuidesTemperature_AreItsWeeks()
    {
        var days = ReadyDays.Of((5, 6), 6, Guide, Guide, 12, Hardiness.Tender)!.Value;
        Assert.Equal((29, 36, 32.5), (days.Low, days.High, days.Median));
    }

    [Fact]
    public void ReadyDays_ColderOrDuller_IsLater()
    {
        double Median(Temperature house, double mol) => ReadyDays.Of((5, 6), 6, Guide, house, mol, Hardiness.Tender)!.Value.Median;
        Assert.True(Median(Temperature.FromFahrenheit(60), 12) > 32.5);
        Assert.True(Median(Guide, 5) > 32.5);
        Assert.Equal(Median(Temperature.FromFahrenheit(77), 12), Median(Temperature.FromFahrenheit(86), 12));
        Assert.Null(ReadyDays.Of((5, 6), 6, Guide, new Temperature(5), 12, Hardiness.Tender));
        Assert.Throws<InputOutOfRange>(() => ReadyDays.Of((6, 5), 6, Guide, Guide, 12, Hardiness.Tender));
    }

    /// <summary>Trade fact, common practice, no source: cool crops are thinned about a week after emergence. Floors of hardening:
    /// tests/reference/04b (S30, S31).</summary>
    [Fact]
    public void Care_Fallbacks_AreThoseOfTheTrade()
    {
        Assert.InRange(7, CareTiming.ThinAfterEmergence(CropClass.Cool).From, CareTiming.ThinAfterEmergence(CropClass.Cool).To);
        Assert.Equal((7, 14), CareTiming.ThinAfterEmergence(CropClass.Warm));
        Assert.Equal(
            (50m, 60m, 45m),
            (CareTiming.HardeningFloor("Tomato").Fahrenheit, CareTiming.HardeningFloor("pepper").Fahrenheit, CareTiming.HardeningFloor("Basil").Fahrenheit));
    }

    /// <summary>U values and 1 Btu/h/ft²/°F = 5.678263 W/m²/K: tests/reference/12 (S134, S135, from memory). By hand in US units: 1000 ft² of
    /// double polyethylene (0.7) and 10,000 ft³ once an hour, 40 °F: 28,000 + 8,000 Btu/h = 10,551 W.</summary>
    [Fact]
    public void HouseHeat_InMetricAndUsUnits_IsTheSame()
    {
        const double wattsPerBtu = 0.29307107;
        var watts = HouseHeat.LossWatts(
            1000 * 0.09290304, 0.7 * HouseHeat.WattsPerM2KelvinOfBtu, 10_000 * 0.028316846592, 1, Temperature.FromFahrenheit(60), Temperature.FromFahrenheit(20));
        Assert.Equal((28_000 + 8_000) * wattsPerBtu, watts, 0.01);
        Assert.Equal(0, HouseHeat.LossWatts(100, 4, 100, 1, new Temperature(10), new Temperature(20)));
    }

    [Fact]
    public void Mat_LiftOfTen_RunsMostOfTheTime()
    {
        var (kwh, duty) = HouseHeat.Mat(10, 10, 120);
        Assert.Equal(0.75, duty.Value, 1e-12);
        Assert.Equal(0.75 * 120 * 10 * 24 / 1000, kwh, 1e-9);
        Assert.Equal(1, HouseHeat.Mat(10, 40, 120).Duty.Value);
        Assert.Throws<InputOutOfRange>(() => HouseHeat.Mat(10, double.NaN, 120));
    }
}
