using System.Globalization;

namespace Nursery.Application.Tests.Scenario;

/// <summary>The rows of the demo's files, so that what is loaded is compared with what is written.</summary>
internal static class DemoFiles
{
    public static List<IReadOnlyDictionary<string, string>> Read(string file)
    {
        var text = CsvText.Decode(File.ReadAllBytes(Path.Combine(DemoNursery.Folder, file)));
        return [.. CsvText.Read(text, text.Split('\n')[0].TrimEnd('\r').Split(','), 10_000).Select(row => row.Fields)];
    }

    public static int Count(string file) => Read(file).Count;

    public static int Whole(IReadOnlyDictionary<string, string> row, string field) =>
        int.Parse(row[field], NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture);

    public static decimal Number(IReadOnlyDictionary<string, string> row, string field) =>
        decimal.Parse(row[field], NumberStyles.Number, CultureInfo.InvariantCulture);

    public static List<IReadOnlyDictionary<string, string>> SownBatches() => [.. Read("batches.csv").Where(batch => batch["sown"] == "yes")];
}
