using System.Globalization;
using NodaTime;
using Nursery.Domain;

namespace Nursery.Web.Components;

/// <summary>Days, numbers and tasks as they are written on pages.</summary>
public static class Written
{
    public static string Day(LocalDate day) => day.ToString("d MMMM uuuu", CultureInfo.InvariantCulture);

    public static string Number(long number) => number.ToString("N0", CultureInfo.InvariantCulture);

    /// <summary>A fraction 0–1 with one decimal: 78.4 %.</summary>
    public static string Percent(decimal fraction) => string.Create(CultureInfo.InvariantCulture, $"{fraction * 100:0.0} %");

    public static string Spaces(int first, int count) =>
        (count == 1 ? "space " : "spaces ") + new SpaceRun(first, count);

    /// <summary>1 tray, 2 trays.</summary>
    public static string Count(long number, string one, string? many = null) =>
        $"{Number(number)} {(number == 1 ? one : many ?? one + "s")}";

    public static string Variety(string crop, string variety) => $"{crop} ‘{variety}’";
}
