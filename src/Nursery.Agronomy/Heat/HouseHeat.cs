namespace Nursery.Agronomy.Heat;

/// <summary>Heat a house and its mats lose. For plans only: heating and wiring are a licensed trade's work, to local code. Source: heat loss
/// U × area × difference and infiltration, Greenhouse Engineering NRAES-33 and ANSI/ASAE EP406 (from memory).</summary>
public static class HouseHeat
{
    /// <summary>1 Btu/h/ft²/°F (thermochemical and table values agree to the digits given).</summary>
    public const double WattsPerM2KelvinOfBtu = 5.678263;

    /// <summary>Warm air let out takes 0.02 Btu for each ft³ and °F, as W·h in a m³ and °C.</summary>
    private const double AirWattHours = 0.02 * 0.29307107 * 35.31466672 * 1.8;

    /// <summary>Upward loss of a mat, 8–10 W m⁻² K⁻¹ (from memory).</summary>
    private const double MatLoss = 9;

    /// <summary>Watts lost through cover and by leaking air; 0 when it is warmer outside.</summary>
    /// <param name="coverM2">0 to 1,000,000 m².</param>
    /// <param name="wattsPerM2Kelvin">U value, 0.1 to 20.</param>
    /// <param name="volumeM3">0 to 10,000,000 m³.</param>
    /// <param name="airChangesPerHour">0 to 20.</param>
    /// <param name="inside">−40 to 50 °C.</param>
    /// <param name="outside">−60 to 60 °C.</param>
    /// <exception cref="InputOutOfRange">An input outside its range.</exception>
    public static double LossWatts(
        double coverM2, double wattsPerM2Kelvin, double volumeM3, double airChangesPerHour, Temperature inside, Temperature outside)
    {
        InputOutOfRange.Within(coverM2, 0, 1e6, nameof(coverM2), "m²");
        InputOutOfRange.Within(wattsPerM2Kelvin, 0.1, 20, nameof(wattsPerM2Kelvin), "W m⁻² K⁻¹");
        InputOutOfRange.Within(volumeM3, 0, 1e7, nameof(volumeM3), "m³");
        InputOutOfRange.Within(airChangesPerHour, 0, 20, nameof(airChangesPerHour), "an hour");
        var difference = InputOutOfRange.Within(inside.C, -40, 50, nameof(inside), "°C") - InputOutOfRange.Within(outside.C, -60, 60, nameof(outside), "°C");
        return Math.Max(0, difference) * ((coverM2 * wattsPerM2Kelvin) + (AirWattHours * volumeM3 * airChangesPerHour));
    }

    /// <summary>What a mat needs to keep trays warmer than the air, and for what part of the time it runs.</summary>
    /// <param name="areaM2">Above 0, to 10,000 m².</param>
    /// <param name="lift">Mix above air, 0 to 40 °C difference.</param>
    /// <param name="ratedWattsPerM2">10–15 W/ft² are 108–161 W/m²; above 0, to 1000.</param>
    /// <returns>kWh a day and the part of the time; 1 when the mat is too weak.</returns>
    /// <exception cref="InputOutOfRange">An input outside its range.</exception>
    public static (double KwhPerDay, Fraction Duty) Mat(double areaM2, double lift, double ratedWattsPerM2)
    {
        InputOutOfRange.Above(areaM2, 0, 10_000, nameof(areaM2), "m²");
        InputOutOfRange.Within(lift, 0, 40, nameof(lift), "°C");
        InputOutOfRange.Above(ratedWattsPerM2, 0, 1000, nameof(ratedWattsPerM2), "W/m²");
        var duty = Math.Min(1, MatLoss * lift / ratedWattsPerM2);
        return (duty * ratedWattsPerM2 * areaM2 * 24 / 1000, new Fraction(duty));
    }
}
