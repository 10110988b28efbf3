namespace Nursery.Printing.MixSheets;

/// <summary>The mix of one day.</summary>
/// <param name="Title">Such as "Monday, 2 March 2026".</param>
/// <param name="Sum">Volume and bales, in a sentence.</param>
/// <param name="Lines">What is put together, then what is filled.</param>
public sealed record MixDay(string Title, string Sum, IReadOnlyList<MixLine> Lines);
