using System.Globalization;
using CsCheck;
using Nursery.Agronomy.Air;
using Nursery.Agronomy.Light;
using Xunit;

namespace Nursery.Agronomy.Tests.Air;

public sealed class AirTests
{
    private static readonly Length SeaLevel = new(0);

    /// <summary>FAO-56 annex 2, tables 2.3 and 2.4: tests/reference/11a (S101), half of the last printed digit and the paper's own rounding.</summary>
    [Fact]
    public void Fao56_SaturationAndSlope_AreTheTables() => Assert.All(Published.Rows("11a_svp_and_slope_table.csv"), row =>
    {
        var air = Fao(row.Number("temp_C"), 50, SeaLevel);
        Assert.Equal(row.Number("svp_kPa_table2_3"), air.Saturation.Kilopascals, 0.0012);
        Assert.Equal(row.Number("slope_kPa_per_C_table2_4"), air.SlopeKpaPerC, 0.0012);
    });

    /// <summary>FAO-56 annex 2, table 2.1: tests/reference/11b (S101).</summary>
    [Fact]
    public void Fao56_Pressure_IsTheTable() => Assert.All(Published.Rows("11b_pressure_by_altitude.csv"), row => Assert.Equal(
        row.Number("pressure_kPa"), Fao(20, 50, new Length(row.Number("altitude_m"))).AirPressure.Kilopascals, 0.0601));

    /// <summary>FAO-56 examples 2 to 6 and 20: tests/reference/11d (S100, S103, S104).</summary>
    [Fact]
    public void Fao56_ExamplesOfThePaper_Agree()
    {
        Assert.Equal(81.8, Fao56Air.PressureKpa(1800), 0.05);
        Assert.Equal(0.054, Fao56Air.GammaKpa(Fao56Air.PressureKpa(1800)), 0.0005);
        Assert.Equal(1.705, Fao56Air.SaturationKpa(15), 0.0005);
        Assert.Equal(1.70535, Fao56Air.SaturationKpa(15), 5e-5);
        Assert.Equal(2.39, (Fao56Air.SaturationKpa(15) + Fao56Air.SaturationKpa(24.5)) / 2, 0.005);
        Assert.Equal(2.267, Fao56Air.SaturationKpa(19.5), 0.0007);
        Assert.Equal(2.064, Fao56Air.SaturationKpa(18), 0.0007);
        Assert.Equal(3.168, Fao56Air.SaturationKpa(25), 0.0007);
        Assert.Equal(1.69, Fao56Air.SaturationKpa(18) * 0.82, 0.005);
        Assert.Equal(1.68, Fao56Air.SaturationKpa(14.8), 0.005);
        Assert.Equal(79.91, 100 * 1.91 / 2.39, 0.01);
    }

    /// <summary>ASHRAE Handbook Fundamentals 2017, ch. 1, tables 1 to 3 and example 1: tests/reference/11c (S120), tolerance as given there.</summary>
    [Fact]
    public void Ashrae_Tables_Agree()
    {
        var checks = 0;
        foreach (var row in Published.Rows("11c_psychrometrics_ashrae.csv"))
        {
            if (AshraeOf(row["quantity"], row["inputs"]) is not { } found)
            {
                continue;
            }

            checks++;
            Assert.Equal(row.Number("expected"), found, ToleranceOf(row));
        }

        Assert.Equal(22, checks);
    }

    [Theory]
    [InlineData(AirFormula.Fao56)]
    [InlineData(AirFormula.Ashrae)]
    public void Of_AnyAir_IsInOrder(AirFormula formula) => Gen.Select(Gen.Double[-10, 45], Gen.Double[5, 100], Gen.Double[0, 3000]).Sample((celsius, percent, meters) =>
    {
        var air = AirState.Of(Temperature.FromDegrees(celsius), Fraction.FromPercent(percent), new Length(meters), formula);
        Assert.True(air.DewPoint.Celsius <= air.WetBulb.Celsius + 0.02m && air.WetBulb.Celsius <= (decimal)celsius + 0.0001m);
        Assert.Equal(air.Saturation.Kilopascals - air.Actual.Kilopascals, air.Deficit.Kilopascals, 1e-12);
        Assert.Equal(percent / 100, air.Actual.Kilopascals / air.Saturation.Kilopascals, 1e-12);
        var nearby = AirState.Of(Temperature.FromDegrees(celsius + 0.01), Fraction.FromPercent(percent), new Length(meters), formula);
        if (celsius is < -0.02 or > 0.03)
        {
            Assert.Equal((nearby.Saturation.Kilopascals - air.Saturation.Kilopascals) / 0.01, air.SlopeKpaPerC, 0.0005 * (1 + air.SlopeKpaPerC));
        }
    });

    /// <summary>Two formulas near 25 °C: less than 0.1 % apart.</summary>
    [Fact]
    public void Formulas_NearTwentyFive_DifferLittle() => Assert.Equal(
        1, Fao(25, 50, SeaLevel).Saturation.Kilopascals / AirState.Of(new Temperature(25), new Fraction(0.5), SeaLevel, AirFormula.Ashrae).Saturation.Kilopascals, 0.001);

    /// <summary>FAO-56 example 17, Bangkok in April: tests/reference/10d (S102); the paper takes 0.07 × 2 °C = 0.14 MJ into the soil between months
    /// (equation 43, from memory).</summary>
    [Fact]
    public void Evapotranspiration_Bangkok_IsThePapers()
    {
        var day = new ReferenceEvapotranspiration(new EvapotranspirationQuestion(
            new Temperature(25.6m), new Temperature(34.8m), 2, new Length(2), new Latitude(13 + (44 / 60d)), new Length(2), 105)
        {
            Actual = new Pressure(2.85),
            SunshineHours = 8.5,
            SoilHeatMj = 0.14,
        });
        Assert.Equal(30.2, day.MeanC, 1e-9);
        Assert.Equal(0.246, day.SlopeKpa, 0.0006);
        Assert.Equal(4.42, day.SaturationKpa, 0.006);
        Assert.Equal(12.31, day.Sun.DaylightHours, 0.006);
        Assert.Equal(22.65, day.SolarMj, 0.03);
        Assert.Equal(28.54, day.ClearSkyMj, 0.03);
        Assert.Equal(3.11, day.NetLongwaveMj, 0.03);
        Assert.Equal(14.33, day.NetMj, 0.03);
        Assert.Equal(5.72, day.MmPerDay, 0.02);
    }

    /// <summary>FAO-56 examples 11, 14 and 18: tests/reference/10d (S100, S103). Example 11 carries the paper's rounding.</summary>
    [Fact]
    public void Evapotranspiration_SingleTerms_Agree()
    {
        Assert.Equal(2.4, Brussels(3.2, 10).Wind2Ms, 0.05);
        Assert.Equal(30.9, (0.75 + 2e-3) * 41.09, 0.05);
        Assert.Equal(2, Brussels(2, 2).Wind2Ms);
        var rio = new ReferenceEvapotranspiration(new EvapotranspirationQuestion(
            new Temperature(19.1m), new Temperature(25.1m), 2, new Length(2), new Latitude(-22.7), new Length(0), 135)
        { Actual = new Pressure(2.1), SolarMj = 14.5 });
        Assert.Equal(3.5, rio.NetLongwaveMj, 0.06);
        Assert.Equal(1.4, rio.NetLongwaveMj * 0.408, 0.05);
    }

    [Fact]
    public void Evapotranspiration_Contradictions_AreRefused()
    {
        var good = new EvapotranspirationQuestion(new Temperature(12), new Temperature(22), 2, new Length(2), new Latitude(50), new Length(100), 187)
        {
            MeanHumidity = new Fraction(0.7),
            SolarMj = 20,
        };
        Assert.True(new ReferenceEvapotranspiration(good).MmPerDay > 2);
        Refused(good with { Actual = new Pressure(1) }, "rhMeanPercent");
        Refused(good with { MeanHumidity = null }, "rhMeanPercent");
        Refused(good with { MeanHumidity = null, MinimumHumidity = new Fraction(0.5) }, "rhMeanPercent");
        Refused(good with { SunshineHours = 5 }, "sunshineHours");
        Refused(good with { SolarMj = null }, "sunshineHours");
        Refused(good with { Maximum = new Temperature(11) }, "tmaxC");
        Refused(good with { WindMs = double.NaN }, "windMs");
        Refused(good with { MeanHumidity = null, Actual = new Pressure(9) }, "actualKpa");
        Assert.Throws<InputOutOfRange>(() => Fao(20, 0, SeaLevel));
        Assert.Throws<InputOutOfRange>(() => Fao(101, 50, SeaLevel));
    }

    private static ReferenceEvapotranspiration Brussels(double wind, double height) => new(new EvapotranspirationQuestion(
        new Temperature(12.3m), new Temperature(21.5m), wind, new Length(height), new Latitude(50.8), new Length(100), 187)
    {
        MinimumHumidity = new Fraction(0.63),
        MaximumHumidity = new Fraction(0.84),
        SunshineHours = 9.25,
    });

    private static void Refused(EvapotranspirationQuestion question, string input) =>
        Assert.Equal(input, Assert.Throws<InputOutOfRange>(() => new ReferenceEvapotranspiration(question)).Input);

    private static AirState Fao(double celsius, double percent, Length altitude) =>
        AirState.Of(Temperature.FromDegrees(celsius), Fraction.FromPercent(percent), altitude, AirFormula.Fao56);

    private static double? AshraeOf(string quantity, string inputs)
    {
        double Input(string name) => double.Parse(
            System.Text.RegularExpressions.Regex.Match(inputs, $@"\b{name}[= ]?(-?[\d.]+)").Groups[1].Value, CultureInfo.InvariantCulture);
        double Saturated() => AshraeAir.HumidityRatio(AshraeAir.SaturationPa(Input("T")), Input("P"));
        double Example() => AshraeAir.HumidityRatioOfWetBulb(40, 20, 101325);
        return quantity switch
        {
            "saturation vapour pressure" => AshraeAir.SaturationPa(Input("T")),
            "saturation humidity ratio" => Saturated(),
            "saturated air enthalpy" => AshraeAir.EnthalpyJ(Input("T"), Saturated()),
            "standard pressure" => AshraeAir.PressurePa(Input("z")),
            "humidity ratio from vapour pressure" => AshraeAir.HumidityRatio(Input("e"), Input("P")),
            "humidity ratio from wet bulb" => AshraeAir.HumidityRatioOfWetBulb(Input("T"), Input("Tw"), Input("P")),
            "moist air enthalpy" => AshraeAir.EnthalpyJ(Input("T"), Input("W")),
            "dry air volume" => AshraeAir.VolumeM3(Input("T"), 0, Input("P")),
            "Example 1 humidity ratio" => Example(),
            "Example 1 RH" => Example() / (0.621945 + Example()) * 101325 / AshraeAir.SaturationPa(40),
            "Example 1 enthalpy" => AshraeAir.EnthalpyJ(40, Example()),
            _ => null,
        };
    }

    private static double ToleranceOf(IReadOnlyDictionary<string, string> row)
    {
        var (text, expected) = (row["tolerance"], Math.Abs(row.Number("expected")));
        var number = double.Parse(text.Split(' ')[0], CultureInfo.InvariantCulture);
        return text.Contains('%', StringComparison.Ordinal) ? Math.Max(expected == 1.08 ? 0.01 : 0, number / 100 * expected) : number;
    }
}
