using Nursery.Printing.Drawing;

namespace Nursery.Printing.Sheets;

/// <summary>What stands in a cell: texts below each other, a box to tick, or a line to write on.</summary>
internal sealed record SheetCell(CellKind Kind, IReadOnlyList<(string Text, TextStyle Style, int MostLines)> Parts)
{
    public static SheetCell Empty { get; } = new(CellKind.Text, []);

    public static SheetCell Tick { get; } = new(CellKind.Tick, []);

    public static SheetCell Field { get; } = new(CellKind.Field, []);

    public static SheetCell Of(params (string? Text, TextStyle Style, int MostLines)[] parts) =>
        new(CellKind.Text, [.. parts.Where(part => !string.IsNullOrEmpty(part.Text)).Select(part => (part.Text!, part.Style, part.MostLines))]);
}
