using System.Text;

namespace Nursery.Application.Setup.Lists;

/// <summary>Writes CSV by RFC 4180: commas, CRLF after every line, quotes where they are needed and doubled inside.
/// A spreadsheet must never run what someone typed: text that could start a formula gets an apostrophe in front, which the
/// import takes off again.</summary>
internal static class CsvWriting
{
    private const char Apostrophe = '\'';

    public static string Write(IReadOnlyList<SetupColumn> columns, IEnumerable<IReadOnlyDictionary<string, string>> rows)
    {
        var text = new StringBuilder();
        text.AppendJoin(',', columns.Select(column => column.Name)).Append("\r\n");
        foreach (var row in rows)
        {
            text.AppendJoin(',', columns.Select(column => Quoted(column.IsText ? Defused(row[column.Name]) : row[column.Name])))
                .Append("\r\n");
        }

        return text.ToString();
    }

    public static string Defused(string value) => StartsFormula(value) ? Apostrophe + value : value;

    public static string Fused(string value) => value.StartsWith(Apostrophe) && StartsFormula(value[1..]) ? value[1..] : value;

    /// <summary>Apostrophes in front do not count: so what was typed with one comes back with one.</summary>
    private static bool StartsFormula(string value) => value.TrimStart(Apostrophe) is ['=' or '+' or '-' or '@' or '\t' or '\r', ..];

    public static string Quoted(string value) =>
        value.AsSpan().ContainsAny(",\"\r\n") ? $"\"{value.Replace("\"", "\"\"", StringComparison.Ordinal)}\"" : value;
}
