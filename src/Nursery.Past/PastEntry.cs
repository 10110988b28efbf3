namespace Nursery.Past;

/// <summary>Something reported on a day at a minute of the site's day.</summary>
/// <param name="Batch">The batch's number; null for a bench.</param>
/// <param name="Value">The count, or plants lost.</param>
/// <param name="Trays">Counted in the first so many trays; null is all.</param>
/// <param name="Word">A bench, a surface or a cause.</param>
public sealed record PastEntry(
    int Day, int Minute, int Worker, int? Batch, PastWork Work, int Value = 0, int? Trays = null, string Word = "", string Bench = "");
