namespace Nursery.Printing.RoundSheets;

/// <summary>The round of a day on paper, for when there is no tablet.</summary>
/// <param name="Number">Typed first when the filled sheet is entered.</param>
/// <param name="Day">Such as "Tuesday, 24 November 2026".</param>
/// <param name="Scope">Such as "House 2" or "all houses".</param>
public sealed record RoundSheetModel(
    Imprint Imprint, Paper Paper, int Number, string Day, string Scope, IReadOnlyList<RoundSheetStop> Stops);
