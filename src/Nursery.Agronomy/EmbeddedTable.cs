using System.Globalization;

namespace Nursery.Agronomy;

/// <summary>A CSV table that travels with the library: quotes as RFC 4180 has them, no line breaks within fields, a header first.</summary>
internal static class EmbeddedTable
{
    /// <summary>The rows after the header.</summary>
    /// <exception cref="InvalidOperationException">The library was built without the table.</exception>
    public static IReadOnlyList<string[]> Rows(string name)
    {
        using var stream = typeof(EmbeddedTable).Assembly.GetManifestResourceStream(name)
            ?? throw new InvalidOperationException($"the table {name} is not in the library");
        using var reader = new StreamReader(stream);
        return [.. reader.ReadToEnd().Split('\n', StringSplitOptions.RemoveEmptyEntries).Skip(1).Select(Fields)];
    }

    /// <summary>A number, or null for an empty field.</summary>
    public static double? Number(string field) => field.Length == 0 ? null : double.Parse(field, CultureInfo.InvariantCulture);

    private static string[] Fields(string line)
    {
        var parts = line.TrimEnd('\r').Split('"');
        var fields = new List<string> { "" };
        for (var part = 0; part < parts.Length; part++)
        {
            if (part % 2 == 1)
            {
                fields[^1] += parts[part];
                continue;
            }

            var pieces = parts[part].Split(',');
            fields[^1] += pieces[0];
            fields.AddRange(pieces.Skip(1));
        }

        return [.. fields];
    }
}
