using System.Globalization;
using CsvHelper;

namespace Nursery.Domain.Tests;

/// <summary>Reads the CSV files that stand in the repository, found by walking up to Nursery.sln.</summary>
internal static class RepositoryCsv
{
    public static IReadOnlyList<IReadOnlyDictionary<string, string>> Read(params string[] path)
    {
        using var text = File.OpenText(Path.Combine([Root(), .. path]));
        using var csv = new CsvReader(text, CultureInfo.InvariantCulture);
        csv.Read();
        csv.ReadHeader();
        var header = csv.HeaderRecord!;
        var rows = new List<IReadOnlyDictionary<string, string>>();
        while (csv.Read())
        {
            rows.Add(header.ToDictionary(column => column, column => csv.GetField(column)!));
        }

        return rows;
    }

    public static decimal Number(string text) => decimal.Parse(text, NumberStyles.Number, CultureInfo.InvariantCulture);

    private static string Root()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder.FullName, "Nursery.sln")))
        {
            folder = folder.Parent ?? throw new DirectoryNotFoundException("No folder above the test holds Nursery.sln.");
        }

        return folder.FullName;
    }
}
