namespace Nursery.Printing.Sheets;

/// <summary>A part of a sheet under one heading.</summary>
/// <param name="Heading">Repeated when the section goes on over a page.</param>
/// <param name="Note">A line under the heading.</param>
/// <param name="Blocks">Rows that stay together on a page.</param>
/// <param name="Signatures">What is signed for under the last block, such as "picked by".</param>
/// <param name="OnNewPage">Whether it begins on a page of its own.</param>
internal sealed record SheetSection(
    string Heading,
    string? Note,
    IReadOnlyList<IReadOnlyList<IReadOnlyList<SheetCell>>> Blocks,
    IReadOnlyList<string>? Signatures = null,
    bool OnNewPage = false);
