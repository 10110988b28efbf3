namespace Nursery.Agronomy.Air;

/// <summary>Moist air at a temperature, humidity and height.</summary>
/// <param name="Saturation">Vapor pressure at saturation.</param>
/// <param name="SlopeKpaPerC">Of saturation over temperature, kPa/°C.</param>
/// <param name="Actual">Vapor pressure.</param>
/// <param name="Deficit">Saturation less actual (VPD).</param>
/// <param name="DewPoint">Where it would be saturated.</param>
/// <param name="WetBulb">What a ventilated wet thermometer reads.</param>
/// <param name="AirPressure">At this height.</param>
public sealed record AirState(
    Pressure Saturation, double SlopeKpaPerC, Pressure Actual, Pressure Deficit, Temperature DewPoint, Temperature WetBulb, Pressure AirPressure)
{
    /// <param name="temperature">−60 to 100 °C.</param>
    /// <param name="humidity">Relative, above 0.</param>
    /// <param name="altitude">−500 to 9000 m.</param>
    /// <param name="formula">Whose formulas.</param>
    /// <exception cref="InputOutOfRange">An input outside its range.</exception>
    public static AirState Of(Temperature temperature, Fraction humidity, Length altitude, AirFormula formula)
    {
        var celsius = InputOutOfRange.Within(temperature.C, -60, 100, "temperatureC", "°C");
        InputOutOfRange.Above(humidity.Percent, 0, 100, "relativeHumidity", "%");
        InputOutOfRange.Within(altitude.Meters, -500, 9000, "altitudeM", "m");
        return formula == AirFormula.Fao56 ? Fao(celsius, humidity.Value, altitude) : Ashrae(celsius, humidity.Value, altitude);
    }

    private static AirState Fao(double celsius, double humidity, Length altitude)
    {
        var (saturation, pressure) = (Fao56Air.SaturationKpa(celsius), Fao56Air.PressureKpa(altitude.Meters));
        var actual = saturation * humidity;
        var gamma = Fao56Air.VentilatedPsychrometer * pressure;
        var wet = Root.Of(t => Fao56Air.SaturationKpa(t) - (gamma * (celsius - t)) - actual, -120, celsius);
        return State(saturation, Fao56Air.SlopeKpa(celsius), actual, Fao56Air.DewPointC(actual), wet, pressure);
    }

    private static AirState Ashrae(double celsius, double humidity, Length altitude)
    {
        var (saturation, pressure) = (AshraeAir.SaturationPa(celsius), AshraeAir.PressurePa(altitude.Meters));
        if (saturation >= pressure)
        {
            throw InputOutOfRange.Of(celsius, "temperatureC", "°C", "below the boiling point at this altitude");
        }

        var actual = saturation * humidity;
        var ratio = AshraeAir.HumidityRatio(actual, pressure);
        var wet = Root.Of(t => AshraeAir.HumidityRatioOfWetBulb(celsius, t, pressure) - ratio, -100, celsius);
        var dew = Root.Of(t => AshraeAir.SaturationPa(t) - actual, -120, celsius);
        return State(saturation / 1000, AshraeAir.SlopePa(celsius) / 1000, actual / 1000, dew, wet, pressure / 1000);
    }

    private static AirState State(double saturation, double slope, double actual, double dew, double wet, double pressure) => new(
        new Pressure(saturation), slope, new Pressure(actual), new Pressure(saturation - actual), Temperature.FromDegrees(dew),
        Temperature.FromDegrees(wet), new Pressure(pressure));
}
