namespace Nursery.Printing.Sheets;

/// <summary>A sheet with tables, ready to be cut into pages.</summary>
/// <param name="Title">On every page.</param>
/// <param name="Subtitle">Under it on every page.</param>
/// <param name="WhenEmpty">The sentence when there is no section.</param>
/// <param name="Corner">A number or code at the right of the title, for whoever types the sheet.</param>
/// <param name="WriteIn">What is written by hand beside the subtitle, such as "done by".</param>
/// <param name="MostSubtitleLines">More of it is cut off.</param>
internal sealed record SheetModel(
    Imprint Imprint,
    Paper Paper,
    string Title,
    string Subtitle,
    string WhenEmpty,
    IReadOnlyList<SheetColumn> Columns,
    IReadOnlyList<SheetSection> Sections,
    string? Corner = null,
    string? WriteIn = null,
    int MostSubtitleLines = 2);
