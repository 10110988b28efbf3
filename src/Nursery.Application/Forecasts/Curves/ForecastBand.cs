using Nursery.Application.Germination.Curves;

namespace Nursery.Application.Forecasts.Curves;

/// <summary>A line with the band of nine in ten around it.</summary>
/// <param name="Middle">The median, day by day.</param>
/// <param name="Edge">Around the band, once.</param>
/// <param name="Label">At its end.</param>
/// <param name="LabelAt">Middle of the label.</param>
public sealed record ForecastBand(IReadOnlyList<CurvePoint> Middle, IReadOnlyList<CurvePoint> Edge, string Label, double LabelAt);
