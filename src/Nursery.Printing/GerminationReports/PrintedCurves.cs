namespace Nursery.Printing.GerminationReports;

/// <summary>Curves laid out for <see cref="GerminationReportDocument.CurvesSize"/>; places in points from the upper left corner.</summary>
/// <param name="Title">Whose curves.</param>
/// <param name="Left">Of the plot.</param>
/// <param name="Top">Of the plot.</param>
/// <param name="Right">Of the plot; labels stand right of it.</param>
/// <param name="Bottom">Of the plot.</param>
/// <param name="Days">Marks of the lower axis.</param>
/// <param name="Percents">Marks of the upright axis.</param>
/// <param name="Levels">Level lines to compare with, dashed.</param>
public sealed record PrintedCurves(
    string Title,
    double Left,
    double Top,
    double Right,
    double Bottom,
    IReadOnlyList<(double At, string Text)> Days,
    IReadOnlyList<(double At, string Text)> Percents,
    IReadOnlyList<PrintedCurve> Lines,
    IReadOnlyList<PrintedCurve> Levels);
