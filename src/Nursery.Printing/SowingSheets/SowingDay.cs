namespace Nursery.Printing.SowingSheets;

/// <summary>What is to be sown on a day, or late.</summary>
/// <param name="Title">Such as "Monday, 2 March 2026" or "Late".</param>
/// <param name="Sum">Such as "3 batches, 12 trays, 864 seeds".</param>
public sealed record SowingDay(string Title, string Sum, IReadOnlyList<SowingLine> Lines);
