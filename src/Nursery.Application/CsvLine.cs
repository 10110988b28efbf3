using System.Globalization;
using NodaTime;
using NodaTime.Text;

namespace Nursery.Application;

/// <summary>A line of a CSV file (RFC 4180): commas between, quotes where they are needed and doubled inside, CRLF at the end.
/// A spreadsheet must never run what someone typed: text that could start a formula gets an apostrophe in front, which the
/// imports take off again. Numbers, days and moments are written as programs read them.</summary>
internal static class CsvLine
{
    private const char Apostrophe = '\'';

    public static string Of(params object?[] values) => OfFields(values.Select(Field));

    /// <summary>Of fields as they shall stand in the file: what people typed is <see cref="Defused"/> by the caller.</summary>
    public static string OfFields(IEnumerable<string> fields) => string.Join(',', fields.Select(Quoted)) + "\r\n";

    public static string Defused(string value) => StartsFormula(value) ? Apostrophe + value : value;

    public static string Fused(string value) => value.StartsWith(Apostrophe) && StartsFormula(value[1..]) ? value[1..] : value;

    private static string Field(object? value) => value switch
    {
        null => "",
        string text => Defused(text),
        Enum word => char.ToLowerInvariant(word.ToString()[0]) + word.ToString()[1..],
        LocalDate day => LocalDatePattern.Iso.Format(day),
        Instant moment => InstantPattern.ExtendedIso.Format(moment),
        decimal number => number.ToString("0.####", CultureInfo.InvariantCulture),
        bool yes => yes ? "yes" : "no",
        int or long or Guid => string.Create(CultureInfo.InvariantCulture, $"{value}"),
        _ => throw new ArgumentException($"{value.GetType().Name} has no form in CSV", nameof(value)),
    };

    /// <summary>Apostrophes in front do not count: so what was typed with one comes back with one.</summary>
    private static bool StartsFormula(string value) => value.TrimStart(Apostrophe) is ['=' or '+' or '-' or '@' or '\t' or '\r', ..];

    private static string Quoted(string value) =>
        value.AsSpan().ContainsAny(",\"\r\n") ? $"\"{value.Replace("\"", "\"\"", StringComparison.Ordinal)}\"" : value;
}
