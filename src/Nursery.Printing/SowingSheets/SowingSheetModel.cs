namespace Nursery.Printing.SowingSheets;

/// <summary>All a sowing sheet needs; every text is already in the site's words and culture.</summary>
/// <param name="Imprint">At the foot of every page.</param>
/// <param name="Paper">Letter or A4.</param>
/// <param name="Span">The days it is for, such as "2–8 March 2026".</param>
/// <param name="Days">In the order they are printed.</param>
/// <param name="Cautions">Printed under the title, one a line.</param>
public sealed record SowingSheetModel(
    Imprint Imprint,
    Paper Paper,
    string Span,
    IReadOnlyList<SowingDay> Days,
    IReadOnlyList<string> Cautions);
