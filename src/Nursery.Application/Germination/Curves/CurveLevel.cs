namespace Nursery.Application.Germination.Curves;

/// <summary>A figure to compare with, as a level line across the drawing.</summary>
/// <param name="LabelAt">Middle of its label.</param>
public sealed record CurveLevel(string Label, double At, double LabelAt);
