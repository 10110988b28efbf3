namespace Nursery.Printing.TrayTags;

/// <summary>Trays that get a tag each: one batch's, or those that several share.</summary>
/// <param name="Code">The tray set's code, such as "EG-031-K-1": what the QR code says.</param>
/// <param name="Trays">How many trays there are in all: "tray 3 of 18".</param>
/// <param name="Next">What they need next, such as "move off heat 14 March".</param>
/// <param name="Shares">One batch, or all that share these trays.</param>
/// <param name="Only">The number of the one tray these shares lie in; null when all trays of the set say the same.</param>
public sealed record TrayTagSet(
    string Code, int Trays, StagePattern Stage, string? Next, IReadOnlyList<TrayTagShare> Shares, int? Only = null)
{
    internal SpanOfTrays Tags => Only is { } tray ? new SpanOfTrays(tray, tray) : new SpanOfTrays(1, Trays);
}
