namespace Nursery.Agronomy;

/// <summary>A temperature. Stored in °C; people read it in the site's unit.</summary>
/// <param name="Celsius">°C, not below absolute zero.</param>
public readonly record struct Temperature(decimal Celsius)
{
    /// <summary>°C = (°F − 32) × 5/9, exact by definition of the Fahrenheit degree (NIST SP 811, B.8).</summary>
    public static Temperature FromFahrenheit(decimal fahrenheit) => new((fahrenheit - 32m) * 5m / 9m);

    /// <summary>From a computed or measured number of °C, −273.15 to 1000.</summary>
    /// <exception cref="InputOutOfRange">Outside that, or no number.</exception>
    public static Temperature FromDegrees(double celsius) =>
        new((decimal)InputOutOfRange.Within(celsius, -273.15, 1000, "temperature", "°C"));

    public decimal Fahrenheit => (Celsius * 9m / 5m) + 32m;

    /// <summary>°C for formulas.</summary>
    internal double C => (double)Celsius;
}
