using System.Globalization;
using Nursery.Agronomy.Fitting;

namespace Nursery.Agronomy.Tests;

/// <summary>The published values of tests/reference.</summary>
internal static class Published
{
    public static string Root { get; } = Find(new DirectoryInfo(AppContext.BaseDirectory));

    public static string Folder { get; } = Path.Combine(Root, "tests", "reference");

    public static IReadOnlyList<IReadOnlyDictionary<string, string>> Rows(string file) => CsvTable.Read(Path.Combine(Folder, file));

    public static double Number(this IReadOnlyDictionary<string, string> row, string column) =>
        double.Parse(row[column], CultureInfo.InvariantCulture);

    private static string Find(DirectoryInfo folder) =>
        File.Exists(Path.Combine(folder.FullName, "Nursery.sln")) ? folder.FullName : Find(folder.Parent!);
}
