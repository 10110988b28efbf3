namespace Nursery.Printing.CarryLists;

/// <summary>The moves the plan has for some days; days without one are left out.</summary>
/// <param name="Span">Such as "24 – 30 November 2026".</param>
public sealed record CarryListModel(Imprint Imprint, Paper Paper, string Span, IReadOnlyList<CarryDay> Days);
