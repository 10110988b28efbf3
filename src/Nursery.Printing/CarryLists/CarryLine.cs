namespace Nursery.Printing.CarryLists;

/// <summary>Trays to carry.</summary>
/// <param name="Trays">Such as "12 trays".</param>
/// <param name="From">The bench's code; where freshly sown trays come from has none.</param>
/// <param name="FromWhere">House and spaces.</param>
/// <param name="Note">Such as "2 days late".</param>
public sealed record CarryLine(
    string Code, string Subject, string Trays, string From, string FromWhere, string To, string ToWhere, string? Note = null);
