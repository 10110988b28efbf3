namespace Nursery.Printing.PickLists;

/// <summary>Orders to pick; each is signed for by itself.</summary>
/// <param name="Scope">Such as "24 November 2026" or "order 1001".</param>
public sealed record PickListModel(Imprint Imprint, Paper Paper, string Scope, IReadOnlyList<PickOrder> Orders);
