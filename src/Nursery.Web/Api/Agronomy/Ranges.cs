using Nursery.Web.Api.Requests;

namespace Nursery.Web.Api.Agronomy;

/// <summary>The ranges the formulas are valid for, as their docstrings say.</summary>
internal static class Ranges
{
    public const int MostItems = 1000;

    public static NumberRange MixCelsius { get; } = new(0, 50, "°C");

    public static NumberRange AirCelsius { get; } = new(-60, 60, "°C");

    public static NumberRange Altitude { get; } = new(-500, 9000, "m");

    public static NumberRange Latitude { get; } = new(-90, 90, "° north");

    public static NumberRange Longitude { get; } = new(-180, 180, "° east");

    public static NumberRange Percent { get; } = new(0, 100, "%");

    public static NumberRange PositivePercent { get; } = new(0, 100, "%") { AboveLow = true };

    public static NumberRange Share { get; } = new(0, 1, "");

    public static NumberRange Beta { get; } = new(0.05, 1e6, "");

    public static NumberRange Day { get; } = new(0, 366, "days since sowing");

    public static NumberRange Cost { get; } = new(0, 1e9, "of the site's currency");
}
