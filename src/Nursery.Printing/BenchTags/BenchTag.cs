namespace Nursery.Printing.BenchTags;

/// <summary>The sign of one bench.</summary>
/// <param name="Kind">The kind of bench in words, such as "growing, warm".</param>
/// <param name="Spaces">How many standard trays fit.</param>
/// <param name="Rows">What stands or is reserved there now, in the order of the spaces.</param>
public sealed record BenchTag(
    string BenchCode,
    string BenchName,
    string House,
    string Kind,
    int Spaces,
    IReadOnlyList<ZoneLine> Zones,
    IReadOnlyList<BenchTagRow> Rows);
