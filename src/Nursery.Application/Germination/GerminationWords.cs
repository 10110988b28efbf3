using System.Globalization;

namespace Nursery.Application.Germination;

/// <summary>Figures of germination as screens and paper say them: plainly, points above or below, no verdict.</summary>
public static class GerminationWords
{
    public static string Key(GerminationKey key) => key switch
    {
        GerminationKey.Crop => "crop",
        GerminationKey.Variety => "variety",
        GerminationKey.Lot => "seed lot",
        GerminationKey.House => "house",
        _ => throw new ArgumentOutOfRangeException(nameof(key), key, "a key without a word"),
    };

    public static string Percent(decimal fraction) => string.Create(CultureInfo.InvariantCulture, $"{fraction * 100:0.0} %");

    /// <summary>3.2 points above; as high when they round to none.</summary>
    public static string Difference(decimal difference)
    {
        var points = Math.Round(difference * 100, 1, MidpointRounding.AwayFromZero);
        return points == 0
            ? "the same"
            : string.Create(CultureInfo.InvariantCulture, $"{Math.Abs(points):0.0} {(Math.Abs(points) == 1 ? "point" : "points")} {(points > 0 ? "above" : "below")}");
    }

    public static string Spread(double? spread) =>
        spread is { } known ? string.Create(CultureInfo.InvariantCulture, $"± {known * 100:0.0} points") : "one batch";

    /// <summary>6.3 days: the row's median, with how many batches it is of when not of all.</summary>
    public static (string Figure, string Beside) Half(GerminationItem item) => item.HalfDays is not { } days
        ? ("not known", "first count too late")
        : (Days(days), item.HalfBatches == item.Batches ? "" : string.Create(CultureInfo.InvariantCulture, $"{item.HalfBatches} of {item.Batches} batches"));

    /// <summary>6.3 days, or by day 9 when the first count already found half.</summary>
    public static string Half(GerminatedBatch batch) => batch.Half switch
    {
        { Days: { } days } => Days(days),
        { AtMost: { } day } => string.Create(CultureInfo.InvariantCulture, $"by day {day}, first count"),
        _ => "none up",
    };

    /// <summary>Label germination and the difference to it.</summary>
    public static (string Figure, string Beside) Label(GerminationItem item) => item.LabelFraction is { } label
        ? (Percent(label), Difference(item.LabelDifference!.Value))
        : ("no lot known", "");

    /// <summary>Published minimum and the difference to it.</summary>
    public static (string Figure, string Beside) Minimum(GerminationRow row) => row.Item.MinimumFraction is { } minimum
        ? (string.Create(CultureInfo.InvariantCulture, $"{minimum * 100:0} %"), Difference(row.Item.MinimumDifference!.Value))
        : row.IsOfSeveralCrops ? ("several kinds", "") : ("no published", "minimum known");

    private static string Days(double days) => string.Create(CultureInfo.InvariantCulture, $"{days:0.0} days");
}
