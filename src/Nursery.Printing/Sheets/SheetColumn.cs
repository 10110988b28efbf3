namespace Nursery.Printing.Sheets;

/// <summary>A column of a sheet's table, its width in points; the one without gets what the others leave.</summary>
internal sealed record SheetColumn(string Title, double? Width = null);
