using Nursery.Printing.Drawing;

namespace Nursery.Printing.SowingSheets;

/// <summary>All a sowing sheet needs; every text is already in the site's words and culture.</summary>
/// <param name="Site">The site's name, on every page.</param>
/// <param name="PrintedAt">The moment of printing, such as "24 November 2026, 14:05".</param>
/// <param name="Paper">Letter or A4.</param>
/// <param name="Span">The days it is for, such as "2–8 March 2026".</param>
/// <param name="Days">In the order they are printed.</param>
/// <param name="Cautions">Printed under the title, one a line.</param>
/// <param name="Notice">A warning for every page, such as "Invented demo data".</param>
public sealed record SowingSheetModel(
    string Site,
    string PrintedAt,
    Paper Paper,
    string Span,
    IReadOnlyList<SowingDay> Days,
    IReadOnlyList<string> Cautions,
    string? Notice = null)
{
    internal Imprint Imprint => new(Site, PrintedAt, Notice);
}
