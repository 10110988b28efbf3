using System.Globalization;
using Nursery.Application.Setup.Lists;
using Nursery.Domain.Sites;

namespace Nursery.Web.Components.Pages.Setup;

/// <summary>Lists hold SI units; people of a site in US units read and type inches and °F.</summary>
public static class SiteUnits
{
    private const decimal CmPerInch = 2.54m;
    private const decimal MmPerInch = 25.4m;

    public static string? Unit(ColumnKind kind, Units units) => (kind, units) switch
    {
        (ColumnKind.Centimeters, Units.UsCustomary) => "in",
        (ColumnKind.Centimeters, _) => "cm",
        (ColumnKind.Millimeters, Units.UsCustomary) => "in",
        (ColumnKind.Millimeters, _) => "mm",
        (ColumnKind.Celsius, Units.UsCustomary) => "°F",
        (ColumnKind.Celsius, _) => "°C",
        _ => null,
    };

    /// <summary>What a refusal says is allowed; bare numbers with the unit they are stored in, when people type another.</summary>
    public static string Allowed(ColumnKind kind, string allowed, Units units) =>
        Unit(kind, Units.Metric) is { } stored && stored != Unit(kind, units) && allowed.Contains('–', StringComparison.Ordinal) && !allowed.Contains(stored, StringComparison.Ordinal)
            ? $"{allowed} {stored}"
            : allowed;

    /// <summary>A stored value as people read it.</summary>
    public static string Shown(ColumnKind kind, string stored, Units units) => Number(stored) is { } number && units == Units.UsCustomary
        ? kind switch
        {
            ColumnKind.Centimeters => Text(number / CmPerInch, "0.#"),
            ColumnKind.Millimeters => Text(number / MmPerInch, "0.##"),
            ColumnKind.Celsius => Text((number * 9 / 5) + 32, "0.#"),
            _ => stored,
        }
        : stored;

    /// <summary>What people typed as it is stored: whole centimeters, °C with two decimals. What is no number stays as typed.</summary>
    public static string Read(ColumnKind kind, string typed, Units units) => Number(typed) is { } number && units == Units.UsCustomary
        ? kind switch
        {
            ColumnKind.Centimeters => Text(number * CmPerInch, "0"),
            ColumnKind.Millimeters => Text(number * MmPerInch, "0.##"),
            ColumnKind.Celsius => Text((number - 32) * 5 / 9, "0.00"),
            _ => typed,
        }
        : typed;

    private static decimal? Number(string text) =>
        decimal.TryParse(text, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var number)
        && Math.Abs(number) < 1_000_000_000 ? number : null;

    private static string Text(decimal number, string format) => number.ToString(format, CultureInfo.InvariantCulture);
}
