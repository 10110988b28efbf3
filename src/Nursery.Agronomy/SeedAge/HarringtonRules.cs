namespace Nursery.Agronomy.SeedAge;

/// <summary>Rules of thumb where no constants are published: the life of seed about doubles with each point less of moisture and with each
/// 10 °F less; relative humidity in percent and °F should add up to 100 or less. Source: J. F. Harrington's rules, as repeated by extension
/// services; only a thumb's measure, for 5 to 14 % moisture and 32 to 122 °F.</summary>
public static class HarringtonRules
{
    /// <summary>How many times longer seed lives in one store than in another.</summary>
    /// <param name="moisture">Of the first, 5 to 14 % of fresh weight.</param>
    /// <param name="temperature">Of the first, 0 to 50 °C.</param>
    /// <param name="otherMoisture">Of the second.</param>
    /// <param name="otherTemperature">Of the second.</param>
    /// <exception cref="InputOutOfRange">An input outside its range.</exception>
    public static double LifeRatio(Fraction moisture, Temperature temperature, Fraction otherMoisture, Temperature otherTemperature) => Math.Pow(
        2, Points(otherMoisture) - Points(moisture) + ((double)(Checked(otherTemperature).Fahrenheit - Checked(temperature).Fahrenheit) / 10));

    /// <summary>Whether a store is good: humidity and temperature add up to 100 or less.</summary>
    /// <param name="humidity">Relative.</param>
    /// <param name="temperature">0 to 50 °C.</param>
    public static bool IsGoodStore(Fraction humidity, Temperature temperature) =>
        humidity.Percent + (double)Checked(temperature).Fahrenheit <= 100;

    private static double Points(Fraction moisture) => InputOutOfRange.Within(moisture.Percent, 5, 14, nameof(moisture), "% of fresh weight");

    private static Temperature Checked(Temperature temperature)
    {
        InputOutOfRange.Within(temperature.C, 0, 50, nameof(temperature), "°C");
        return temperature;
    }
}
