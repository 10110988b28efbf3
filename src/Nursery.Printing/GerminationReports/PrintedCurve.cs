namespace Nursery.Printing.GerminationReports;

/// <summary>A line and the label at its end.</summary>
/// <param name="LabelAt">Middle of the label; null when it has none.</param>
public sealed record PrintedCurve(string Label, IReadOnlyList<(double X, double Y)> Points, double? LabelAt);
