namespace Nursery.Printing.PickLists;

/// <summary>An order to pick on a day.</summary>
/// <param name="Day">The day its plants are wanted, such as "24 November 2026".</param>
public sealed record PickOrder(string Number, string Customer, string Day, IReadOnlyList<PickLine> Lines);
