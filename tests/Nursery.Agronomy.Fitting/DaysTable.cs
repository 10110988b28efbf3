using System.Globalization;

namespace Nursery.Agronomy.Fitting;

/// <summary>What the days table says of one crop at one temperature.</summary>
/// <param name="Celsius">Soil temperature.</param>
/// <param name="Days">Days to emergence; null for NG and NT, which are never numbers.</param>
/// <param name="NoGermination">Printed NG.</param>
/// <param name="Normal">Percent normal seedlings, where printed.</param>
public sealed record DaysPoint(double Celsius, double? Days, bool NoGermination, double? Normal);

/// <summary>Days to emergence and percent normal seedlings by crop: tests/reference/02a.</summary>
public static class DaysTable
{
    public static IReadOnlyList<(string Crop, IReadOnlyList<DaysPoint> Points)> Read(string folder) =>
    [
        .. CsvTable.Read(Path.Combine(folder, "02a_days_to_emergence_harrington.csv"))
            .GroupBy(row => row["crop"])
            .Select(crop => (crop.Key, (IReadOnlyList<DaysPoint>)[.. crop.Select(Point)])),
    ];

    private static DaysPoint Point(IReadOnlyDictionary<string, string> row)
    {
        var printed = row["days_knott1997_S10"];
        return new DaysPoint(
            Number(row["soil_temp_C"])!.Value, printed is "NG" or "NT" ? null : Number(printed), printed == "NG",
            Number(row["pct_normal_seedlings_S12"]));
    }

    private static double? Number(string text) => text.Length == 0 ? null : double.Parse(text, CultureInfo.InvariantCulture);
}
