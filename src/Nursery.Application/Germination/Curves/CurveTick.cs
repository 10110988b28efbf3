namespace Nursery.Application.Germination.Curves;

/// <summary>A mark of an axis: where, and what stands there.</summary>
public sealed record CurveTick(double At, string Text);
