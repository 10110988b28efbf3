namespace Nursery.Agronomy.Fitting;

/// <summary>Reads the small CSV tables of tests/reference: RFC 4180 quotes, no line breaks within fields.</summary>
public static class CsvTable
{
    /// <summary>The rows, each by column name.</summary>
    public static IReadOnlyList<IReadOnlyDictionary<string, string>> Read(string path)
    {
        var lines = File.ReadAllLines(path).Where(line => line.Length > 0).Select(Fields).ToList();
        return [.. lines.Skip(1).Select(fields => lines[0].Zip(fields).ToDictionary(pair => pair.First, pair => pair.Second))];
    }

    private static List<string> Fields(string line)
    {
        var (fields, field, quoted) = (new List<string>(), "", false);
        for (var at = 0; at < line.Length; at++)
        {
            switch (line[at])
            {
                case '"' when quoted && at + 1 < line.Length && line[at + 1] == '"':
                    field += line[at++];
                    break;
                case '"':
                    quoted = !quoted;
                    break;
                case ',' when !quoted:
                    fields.Add(field);
                    field = "";
                    break;
                default:
                    field += line[at];
                    break;
            }
        }

        return [.. fields, field];
    }
}
