using Nursery.Printing.Drawing;
using PdfSharp.Drawing;
using static Nursery.Printing.Typography;

namespace Nursery.Printing.Sheets;

/// <summary>Where the columns of a table stand on a sheet.</summary>
internal sealed class SheetColumns
{
    public const double TitleHeight = 14;

    private const double _gap = 2.5 * Mm;

    private readonly IReadOnlyList<SheetColumn> _columns;
    private readonly double[] _lefts;
    private readonly double[] _widths;

    public SheetColumns(IReadOnlyList<SheetColumn> columns, double width)
    {
        _columns = columns;
        Width = width;
        var rest = width - columns.Sum(column => column.Width ?? 0) - _gap * (columns.Count - 1);
        var shares = columns.Count(column => column.Width is null);
        _widths = [.. columns.Select(column => column.Width ?? rest / shares)];
        _lefts = new double[columns.Count];
        for (var i = 1; i < columns.Count; i++)
            _lefts[i] = _lefts[i - 1] + _widths[i - 1] + _gap;
    }

    public double Width { get; }

    public int Count => _columns.Count;

    public double Left(int column) => _lefts[column];

    public double WidthOf(int column) => _widths[column];

    public void DrawTitles(XGraphics page, TextSetter text, double left, double top)
    {
        for (var i = 0; i < Count; i++)
            text.Draw(page, text.OneLine(_columns[i].Title, ColumnTitle, _widths[i] + _gap - 2), left + _lefts[i], top, ColumnTitle);
        page.DrawLine(Rule, left, top + TitleHeight, left + Width, top + TitleHeight);
    }
}
