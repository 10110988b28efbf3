namespace Nursery.Printing.BenchTags;

/// <summary>One batch on the bench.</summary>
/// <param name="Code">Batch code or tray set code, such as "PE-114-K".</param>
/// <param name="Sown">The sowing day with its month's name, such as "3 March 2027"; null before sowing.</param>
/// <param name="Spaces">Tray spaces, such as "1–12".</param>
/// <param name="NextStep">What the trays need next, such as "move off heat 14 March".</param>
/// <param name="Cells">
/// Set for a batch that shares its tray: which cells are its own, such as "cell rows 1–3". Neighbouring rows with
/// cells and the same spaces are one tray and are never torn apart by a page break.
/// </param>
public sealed record BenchTagRow(
    string Code,
    string Variety,
    string Crop,
    string? Lot,
    string? Sown,
    int Trays,
    string Spaces,
    StagePattern Stage,
    string? NextStep = null,
    string? Cells = null);
