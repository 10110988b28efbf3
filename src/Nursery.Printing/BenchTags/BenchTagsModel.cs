namespace Nursery.Printing.BenchTags;

/// <summary>All a print of bench tags needs; every text is already in the site's words and culture.</summary>
/// <param name="Imprint">At the foot of every page.</param>
/// <param name="PublicAddress">Where a scanned code leads, such as <c>https://nursery.example</c>; null prints the bench code alone.</param>
/// <param name="Tags">One sign per bench, in the order they are printed.</param>
public sealed record BenchTagsModel(
    Imprint Imprint,
    string? PublicAddress,
    Paper Paper,
    IReadOnlyList<BenchTag> Tags);
