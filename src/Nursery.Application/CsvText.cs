using System.Globalization;
using System.Text;
using CsvHelper;
using CsvHelper.Configuration;
using Nursery.Domain.Refusals;

namespace Nursery.Application;

/// <summary>Reads CSV (RFC 4180, UTF-8, header row) strictly: what cannot be read as such is refused whole.</summary>
public static class CsvText
{
    public const int MaxBytes = 16 * 1024 * 1024;
    public const int MaxLineBytes = 64 * 1024;

    /// <exception cref="Malformed">Not UTF-8, or with a NUL in it.</exception>
    /// <exception cref="TooLarge">Longer than 16 MB, or a line longer than 64 KB.</exception>
    public static string Decode(ReadOnlySpan<byte> bytes)
    {
        if (bytes.Length > MaxBytes)
        {
            throw new TooLarge(
                $"The file has {bytes.Length} bytes; at most {MaxBytes} (16 MB) are read",
                new FieldError("file", $"{bytes.Length} bytes", $"at most {MaxBytes} bytes"));
        }

        RefuseLongLines(bytes);
        try
        {
            var text = new UTF8Encoding(false, throwOnInvalidBytes: true).GetString(bytes);
            text = text.Length > 0 && text[0] == '\uFEFF' ? text[1..] : text;
            return text.Contains('\0', StringComparison.Ordinal)
                ? throw new Malformed(
                    "The file has a NUL character in it: it is not a CSV text file",
                    [new FieldError("file", "NUL", "text without NUL", LineOf(text, '\0'))])
                : text;
        }
        catch (DecoderFallbackException failure)
        {
            throw new Malformed(
                $"The file is not UTF-8 at byte {failure.Index}: save it as UTF-8",
                [new FieldError("file", Convert.ToHexString(failure.BytesUnknown ?? []), "UTF-8")]);
        }
    }

    /// <summary>The rows, each with its line in the file (the header is line 1).</summary>
    /// <param name="text">The file.</param>
    /// <param name="needed">Columns it must have, in this order.</param>
    /// <param name="maxRows">The most rows that are read.</param>
    /// <param name="optional">Columns it may have behind those, in this order.</param>
    /// <param name="lacking">What one it lacks holds in every row.</param>
    public static IEnumerable<(int Line, IReadOnlyDictionary<string, string> Fields)> Read(
        string text, IReadOnlyList<string> needed, int maxRows, IReadOnlyList<string>? optional = null, string lacking = "")
    {
        var may = optional ?? [];
        var columns = needed;
        if (string.IsNullOrWhiteSpace(text))
        {
            throw new Malformed(
                $"The file is empty; its first line must be: {string.Join(',', columns)}",
                [new FieldError("header", "", string.Join(',', columns), 1)]);
        }

        RefuseOpenQuote(text);
        using var csv = new CsvReader(new StringReader(text), Configuration());
        csv.Read();
        csv.ReadHeader();
        var header = csv.HeaderRecord!;
        if (header.Length > needed.Count && may.Count > 0)
        {
            columns = [.. needed, .. may.Where(header.Skip(needed.Count).Contains)];
        }

        if (!header.SequenceEqual(columns))
        {
            throw new Malformed(
                $"The first line is '{Shown(string.Join(',', header))}'; it must be: {string.Join(',', columns)}",
                [new FieldError("header", Shown(string.Join(',', header)), string.Join(',', columns), 1)]);
        }

        for (var count = 1; csv.Read(); count++)
        {
            if (count > maxRows)
            {
                throw new TooLarge(
                    string.Create(CultureInfo.InvariantCulture, $"The file has more than {maxRows} rows"),
                    new FieldError("file", $"more than {maxRows} rows", $"at most {maxRows} rows"));
            }

            var line = csv.Parser.RawRow - csv.Parser.RawRecord.TrimEnd('\r', '\n').Count(sign => sign == '\n');
            if (csv.Parser.Count != columns.Count)
            {
                throw new Malformed(
                    $"Line {line} has {csv.Parser.Count} fields; it must have {columns.Count}",
                    [new FieldError("line", Shown(csv.Parser.RawRecord.TrimEnd()), $"{columns.Count} fields", line)]);
            }

            yield return (line, columns.ToDictionary(column => column, column => csv.GetField(column)!)
                .Concat(may.Except(columns).Select(column => KeyValuePair.Create(column, lacking))).ToDictionary());
        }
    }

    private static CsvConfiguration Configuration() => new(CultureInfo.InvariantCulture)
    {
        Mode = CsvMode.RFC4180,
        DetectDelimiter = false,
        TrimOptions = TrimOptions.None,
        IgnoreBlankLines = true,
        BadDataFound = found => throw BadQuote(found),
    };

    /// <summary>Raised when a field is looked at, not when its row is read.</summary>
    private static Malformed BadQuote(BadDataFoundArgs found)
    {
        var line = found.Context.Parser?.RawRow;
        return new Malformed(
            $"Line {line} has a quote in the wrong place: {Shown(found.Field)}",
            [new FieldError("quote", Shown(found.Field), "a field with a quote stands in quotes, with its own doubled", line)]);
    }

    /// <summary>A quote left open would swallow the rest of the file as one field.</summary>
    private static void RefuseOpenQuote(string text)
    {
        var open = false;
        var line = 1;
        var openedOn = 0;
        foreach (var sign in text)
        {
            if (sign == '"')
            {
                open = !open;
                openedOn = line;
            }
            else if (sign == '\n')
            {
                line++;
            }
        }

        if (open)
        {
            throw new Malformed(
                $"A quote opened on line {openedOn} is never closed",
                [new FieldError("quote", "\"", "every opened quote is closed", openedOn)]);
        }
    }

    private static void RefuseLongLines(ReadOnlySpan<byte> bytes)
    {
        var line = 1;
        while (!bytes.IsEmpty)
        {
            var end = bytes.IndexOf((byte)'\n');
            var length = end < 0 ? bytes.Length : end;
            if (length > MaxLineBytes)
            {
                throw new TooLarge(
                    $"Line {line} has {length} bytes; at most {MaxLineBytes} (64 KB) are read",
                    new FieldError("line", $"{length} bytes", $"at most {MaxLineBytes} bytes", line));
            }

            bytes = end < 0 ? [] : bytes[(end + 1)..];
            line++;
        }
    }

    private static int LineOf(string text, char sign) => 1 + text.AsSpan(0, text.IndexOf(sign, StringComparison.Ordinal)).Count('\n');

    private static string Shown(string? value) => value is null ? "" : value.Length <= 120 ? value : value[..120] + "…";
}
