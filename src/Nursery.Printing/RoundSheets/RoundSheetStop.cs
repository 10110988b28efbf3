namespace Nursery.Printing.RoundSheets;

/// <summary>A bench on the walk, with what there is to do at it.</summary>
/// <param name="Place">Such as "House 2 · bench 2A · 80 °F heat".</param>
/// <param name="Lines">In walking order.</param>
public sealed record RoundSheetStop(string Place, IReadOnlyList<RoundSheetLine> Lines);
