namespace Nursery.Agronomy.Mix;

/// <summary>Something stirred into a mix, such as gypsum: that brings calcium and sulfur, no nitrogen, phosphorus or potassium, and raises the
/// salt content.</summary>
/// <param name="Name">What.</param>
/// <param name="Rate">Of it in a cubic meter of mix, 0 to 100,000 g.</param>
public sealed record MixAmendment(string Name, Mass Rate);
