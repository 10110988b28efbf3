namespace Nursery.Testing.Papers;

/// <summary>A part of a page, in points from its top left corner.</summary>
public sealed record LookedAt(double Left, double Top, double Width, double Height);
