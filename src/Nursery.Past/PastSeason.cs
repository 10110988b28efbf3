namespace Nursery.Past;

/// <summary>An invented season: what was planned, what people reported, and the truth behind it.</summary>
/// <param name="Entries">In the order they happened.</param>
public sealed record PastSeason(
    IReadOnlyList<PastLot> Lots, IReadOnlyList<PastBatch> Batches, IReadOnlyList<PastEntry> Entries, SeasonTruth Truth);
