namespace Nursery.Application.Germination.Curves;

/// <summary>A place on the drawing, from its upper left corner.</summary>
public readonly record struct CurvePoint(double X, double Y);
