namespace Nursery.Printing.SowingSheets;

/// <summary>One batch to sow.</summary>
/// <param name="Lot">Null when no lot is meant for it yet.</param>
/// <param name="Trays">Such as "3 trays of 72".</param>
/// <param name="SeedsPerCell">Such as "1 a cell".</param>
/// <param name="Take">Seeds to take, such as "216".</param>
/// <param name="Depth">Such as "6 mm, cover".</param>
/// <param name="Light">Such as "dark".</param>
/// <param name="Where">Bench and spaces, such as "1A 1–3".</param>
public sealed record SowingLine(
    string Code, string Variety, string Crop, string? Lot, string Trays, string SeedsPerCell, string Take, string Depth, string Light,
    string Where);
