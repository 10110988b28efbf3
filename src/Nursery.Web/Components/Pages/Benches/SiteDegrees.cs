using System.Globalization;
using Nursery.Agronomy;
using Nursery.Domain.Sites;

namespace Nursery.Web.Components.Pages.Benches;

/// <summary>Temperatures typed and read in the site's unit.</summary>
internal static class SiteDegrees
{
    public static string Unit(Units units) => units == Units.Metric ? "°C" : "°F";

    /// <summary>'65–95 °F', which no line break tears apart.</summary>
    public static string Range(decimal lowC, decimal highC, Units units) =>
        $"{In(lowC, units).ToString("0.#", CultureInfo.InvariantCulture)}–{MapText.Degrees(highC, units).Replace(' ', '\u00A0')}";

    /// <summary>What was typed, in °C, to the hundredth that is stored.</summary>
    public static decimal Celsius(decimal value, Units units) => units == Units.Metric
        ? value
        : Math.Round(Temperature.FromFahrenheit(value).Celsius, 2, MidpointRounding.AwayFromZero);

    public static decimal In(decimal celsius, Units units) =>
        units == Units.Metric ? celsius : new Temperature(celsius).Fahrenheit;
}
