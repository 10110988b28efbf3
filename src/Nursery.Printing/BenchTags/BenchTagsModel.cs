using Nursery.Printing.Drawing;

namespace Nursery.Printing.BenchTags;

/// <summary>All a print of bench tags needs; every text is already in the site's words and culture.</summary>
/// <param name="Site">The site's name, on every page.</param>
/// <param name="PublicAddress">Where a scanned code leads, such as <c>https://nursery.example</c>; null prints the bench code alone.</param>
/// <param name="PrintedAt">The moment of printing, such as "24 November 2026, 14:05".</param>
/// <param name="Tags">One sign per bench, in the order they are printed.</param>
/// <param name="Notice">A warning for every page, such as "Invented demo data".</param>
public sealed record BenchTagsModel(
    string Site,
    string? PublicAddress,
    string PrintedAt,
    Paper Paper,
    IReadOnlyList<BenchTag> Tags,
    string? Notice = null)
{
    internal Imprint Imprint => new(Site, PrintedAt, Notice);
}
