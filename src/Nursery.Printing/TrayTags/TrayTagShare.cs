namespace Nursery.Printing.TrayTags;

/// <summary>A batch in a tray.</summary>
/// <param name="Code">Of the batch, with its check sign, such as "EG-031-K".</param>
/// <param name="Sown">The sowing day with its month's name; null before sowing.</param>
/// <param name="Cells">Its rows of cells, such as "cell rows 1–3"; null when the tray is all its own.</param>
public sealed record TrayTagShare(string Code, string Variety, string Crop, string? Lot, string? Sown, string? Cells = null);
