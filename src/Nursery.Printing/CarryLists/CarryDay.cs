namespace Nursery.Printing.CarryLists;

/// <summary>What is carried on a day, such as "Tuesday, 24 November 2026".</summary>
public sealed record CarryDay(string Day, IReadOnlyList<CarryLine> Lines);
