using System.Globalization;
using NodaTime;
using NodaTime.Text;

namespace Nursery.Application.Setup.Lists;

/// <summary>How cells are written: the way they are read again.</summary>
internal static class Cell
{
    public static string Of(int number) => number.ToString(CultureInfo.InvariantCulture);

    public static string Of(int? number) => number is { } some ? Of(some) : "";

    public static string Of(decimal number) => number.ToString("0.####", CultureInfo.InvariantCulture);

    public static string Of(decimal? number) => number is { } some ? Of(some) : "";

    /// <summary>Two decimals, so that a whole °F survives.</summary>
    public static string Degrees(decimal? celsius) => celsius?.ToString("0.00", CultureInfo.InvariantCulture) ?? "";

    public static string Of(LocalDate day) => LocalDatePattern.Iso.Format(day);

    public static string Of<T>(T value, IReadOnlyDictionary<string, T> words)
        where T : notnull => words.First(pair => pair.Value.Equals(value)).Key;
}
