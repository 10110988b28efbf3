using System.Globalization;
using NodaTime;
using NodaTime.Text;
using Nursery.Application.Setup.Lists;

namespace Nursery.Application.Exports;

/// <summary>A line of a CSV file (RFC 4180): commas between, quotes where needed, CRLF at the end. Texts are kept from running as formulas;
/// numbers, days and moments are written as programs read them.</summary>
internal static class CsvLine
{
    public static string Of(params object?[] values) => string.Join(',', values.Select(Field)) + "\r\n";

    private static string Field(object? value) => value switch
    {
        null => "",
        string text => CsvWriting.Quoted(CsvWriting.Defused(text)),
        Enum word => char.ToLowerInvariant(word.ToString()[0]) + word.ToString()[1..],
        LocalDate day => LocalDatePattern.Iso.Format(day),
        Instant moment => InstantPattern.ExtendedIso.Format(moment),
        decimal number => number.ToString("0.####", CultureInfo.InvariantCulture),
        bool yes => yes ? "yes" : "no",
        int or long or Guid => string.Create(CultureInfo.InvariantCulture, $"{value}"),
        _ => throw new ArgumentException($"{value.GetType().Name} has no form in CSV", nameof(value)),
    };
}
