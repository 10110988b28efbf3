using static Nursery.Agronomy.EmbeddedTable;

namespace Nursery.Agronomy.Emergence;

/// <summary>The crops with a fitted emergence. The table is written by tests/Nursery.Agronomy.Fitting; a test sees that a new run gives it
/// again.</summary>
public static class EmergenceDefaults
{
    public static IReadOnlyList<CropEmergence> All { get; } = Load();

    /// <summary>The crop of this name, whatever its case; null when there is none.</summary>
    public static CropEmergence? Find(string name) =>
        All.FirstOrDefault(crop => string.Equals(crop.Name, name.Trim(), StringComparison.OrdinalIgnoreCase));

    private static CropEmergence[] Load()
    {
        var printed = Rows("emergence-printed.csv").ToLookup(row => row[0], Printed);
        return [.. Rows("emergence-defaults.csv").Select(row => Crop(row, [.. printed[row[0]]]))];
    }

    private static CropEmergence Crop(string[] row, IReadOnlyList<PrintedDays> printed)
    {
        (double Low, double High) Range(int column) => (Number(row[column])!.Value, Number(row[column + 1])!.Value);
        Temperature Degrees(int column) => Temperature.FromDegrees(Number(row[column])!.Value);
        return new CropEmergence(
            row[0],
            row[1] switch { "cool" => CropClass.Cool, "middle" => CropClass.Middle, _ => CropClass.Warm },
            new RateModel(Degrees(4), Number(row[7])!.Value, Degrees(10), Degrees(13)),
            new RateRanges(Range(5), Range(8), Range(11), Range(14)),
            new EmergenceCurve(SpreadFamily.LogLogistic, row[2] == "1" ? EmergenceCurve.SlowSigma : EmergenceCurve.QuickSigma),
            printed);
    }

    private static PrintedDays Printed(string[] row)
    {
        var (celsius, percent) = (Number(row[1])!.Value, Number(row[3]));
        var tested = row[2] != "NT";
        int? days = row[2] is "NG" or "NT" ? null : (int)Number(row[2])!.Value;

        // The table fills cells it did not test with 0; a percentage above that was counted.
        return new PrintedDays(
            Temperature.FromDegrees(celsius), days, tested, percent is { } known && (tested || known > 0) ? Fraction.FromPercent(known) : null);
    }
}
