using Nursery.Printing.Drawing;
using PdfSharp.Drawing;
using static Nursery.Printing.Typography;

namespace Nursery.Printing.Sheets;

/// <summary>A row of a sheet, broken into lines for its columns.</summary>
internal sealed class SheetRow
{
    private const double _padding = 3;

    /// <summary>A box a gloved hand hits with a pencil.</summary>
    private const double _tickSide = 5.5 * Mm;

    private readonly TextSetter _text;
    private readonly SheetColumns _columns;
    private readonly IReadOnlyList<SheetCell> _cells;
    private readonly IReadOnlyList<(string Line, TextStyle Style)>[] _lines;

    public SheetRow(IReadOnlyList<SheetCell> cells, SheetColumns columns, TextSetter text)
    {
        if (cells.Count != columns.Count)
            throw new ArgumentException($"A row of {cells.Count} cells in a table of {columns.Count} columns.", nameof(cells));
        _text = text;
        _columns = columns;
        _cells = cells;
        _lines = [.. cells.Select((cell, i) => LinesOf(cell, columns.WidthOf(i)))];
    }

    public double Height => 2 * _padding + Math.Max(
        _cells.Any(cell => cell.Kind != CellKind.Text) ? _tickSide : 0,
        _lines.Max(lines => lines.Sum(line => line.Style.Line)));

    public void Draw(XGraphics page, double left, double top)
    {
        for (var i = 0; i < _cells.Count; i++)
        {
            double x = left + _columns.Left(i), y = top + _padding;
            switch (_cells[i].Kind)
            {
                case CellKind.Tick:
                    page.DrawRectangle(Rule, x + 0.5, y + 0.5, _tickSide - 1, _tickSide - 1);
                    break;
                case CellKind.Field:
                    page.DrawLine(Hairline, x, y + _tickSide, x + _columns.WidthOf(i), y + _tickSide);
                    break;
                case CellKind.Text:
                    foreach (var (line, style) in _lines[i])
                    {
                        _text.Draw(page, line, x, y, style);
                        y += style.Line;
                    }

                    break;
            }
        }
    }

    private IReadOnlyList<(string Line, TextStyle Style)> LinesOf(SheetCell cell, double width) =>
    [
        .. cell.Parts.SelectMany(part =>
        {
            // A code is one word: it is set smaller before it is broken.
            var style = part.Style.Face is Face.Code or Face.CodeBold ? _text.Fit(part.Text, part.Style, width, least: 8) : part.Style;
            return _text.Wrap(part.Text, style, width, part.MostLines).Select(line => (line, style));
        }),
    ];
}
