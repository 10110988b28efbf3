namespace Nursery.Application.Germination.Curves;

/// <summary>The line of one batch: nothing up at sowing, then a point a count.</summary>
/// <param name="LabelAt">Middle of its label; null when there was no room for one.</param>
public sealed record CurveLine(Guid BatchId, string Label, IReadOnlyList<CurvePoint> Points, double? LabelAt);
