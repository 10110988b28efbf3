using static Nursery.Agronomy.EmbeddedTable;

namespace Nursery.Agronomy.Standards;

/// <summary>Lowest germination at which vegetable seed may be sold between US states without saying so on the label. Local law may differ;
/// the text was revised in 2020 and is to be checked at ecfr.gov before it is quoted as law.</summary>
/// <param name="Kind">As printed.</param>
/// <param name="Minimum">Hard seed counts in it, while the label's germination leaves hard seed out.</param>
public sealed record GerminationMinimum(string Kind, Fraction Minimum)
{
    public const string Source =
        "7 CFR 201.31 Minimum germination standards for vegetable seeds in interstate commerce, US Department of Agriculture, text of 1994 (59 FR 64491)";

    public static IReadOnlyList<GerminationMinimum> All { get; } =
        [.. Rows("germination-minimum.csv").Select(row => new GerminationMinimum(row[0], Fraction.FromPercent(Number(row[1])!.Value)))];

    /// <summary>The standard of a kind as printed, whatever its case; null when there is none.</summary>
    public static GerminationMinimum? Find(string kind) =>
        All.FirstOrDefault(standard => string.Equals(standard.Kind, kind.Trim(), StringComparison.OrdinalIgnoreCase));
}
