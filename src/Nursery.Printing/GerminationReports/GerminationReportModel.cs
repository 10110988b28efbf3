namespace Nursery.Printing.GerminationReports;

/// <summary>Germination as one looks at it on the screen, on one page; every text is already in the site's words and culture.</summary>
/// <param name="Subtitle">Which batches: days, crop, house, lot.</param>
/// <param name="By">The word for what the rows are.</param>
/// <param name="Curves">Emergence curves; null when there is nothing to draw.</param>
public sealed record GerminationReportModel(
    Imprint Imprint,
    Paper Paper,
    string Subtitle,
    string By,
    IReadOnlyList<GerminationReportRow> Rows,
    PrintedCurves? Curves);
