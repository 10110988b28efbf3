using static Nursery.Agronomy.EmbeddedTable;

namespace Nursery.Agronomy.Standards;

/// <summary>Whether the replicates of a germination test agree: how far the best may lie above the worst by chance (1 in 40). For replicates
/// of 100 seeds on paper, four or two of them; for trays see <see cref="ChanceRange"/>.</summary>
/// <param name="Range">Best − worst, points.</param>
/// <param name="Allowed">Points; null where the table prints nothing for this mean.</param>
/// <param name="IsWithin">Range not above allowed; null with it.</param>
/// <param name="Source">Where the limit is from; says so when it is from memory.</param>
public sealed record ReplicateRange(double Range, int? Allowed, bool? IsWithin, string Source)
{
    private const string Read =
        "7 CFR 201.55 Retests: maximum tolerated ranges between 100-seed replicates, US Department of Agriculture";

    private const string Remembered = "International Rules for Seed Testing, Table 5B part 1, ISTA 2018 (from memory)";

    private static readonly string[][] Table = [.. Rows("replicate-range.csv")];

    /// <summary>Looks the limit up by the mean, rounded to a whole percent (halves up), as the table has it.</summary>
    /// <param name="percents">2 or 4 replicates of 100 seeds, each 0 to 100 %.</param>
    /// <exception cref="InputOutOfRange">An input outside its range.</exception>
    public static ReplicateRange Of(IReadOnlyList<double> percents)
    {
        if (percents.Count is not (2 or 4))
        {
            throw InputOutOfRange.Of(percents.Count, nameof(percents), "replicates of 100 seeds", "2 or 4");
        }

        foreach (var percent in percents)
        {
            InputOutOfRange.Within(percent, 0, 100, nameof(percents), "%");
        }

        var range = percents.Max() - percents.Min();
        var mean = (int)Math.Floor(percents.Average() + 0.5);
        var row = Table.FirstOrDefault(row => Number(row[0]) == mean || Number(row[1]) == mean);
        var allowed = row is null ? null : Number(row[percents.Count == 4 ? 2 : 3]);
        var source = row is { } found && found[4] == "memory" ? Remembered : Read;
        return new ReplicateRange(range, (int?)allowed, allowed is { } most ? range <= most : null, source);
    }
}
