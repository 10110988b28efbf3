namespace Nursery.Printing.PickLists;

/// <summary>A line of an order.</summary>
/// <param name="Subject">Crop and variety.</param>
/// <param name="Plants">As ordered, such as "1,440 plants".</param>
/// <param name="Uncovered">What no batch covers, such as "240 have no batch"; null when all have one.</param>
/// <param name="Places">Where to take them, in walking order, substitutes last.</param>
public sealed record PickLine(string Subject, string Plants, string? Uncovered, IReadOnlyList<PickPlace> Places);
