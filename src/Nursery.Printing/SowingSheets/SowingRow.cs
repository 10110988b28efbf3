using Nursery.Printing.Drawing;
using PdfSharp.Drawing;
using static Nursery.Printing.Typography;

namespace Nursery.Printing.SowingSheets;

/// <summary>One batch of the sheet, broken into lines for its columns.</summary>
internal sealed class SowingRow
{
    private const double _padding = 4;

    private readonly TextSetter _text;
    private readonly SowingColumns _columns;
    private readonly string _code;
    private readonly TextStyle _codeStyle;
    private readonly IReadOnlyList<string> _variety;
    private readonly IReadOnlyList<string> _cropAndLot;
    private readonly IReadOnlyList<string> _trays;
    private readonly string _take;
    private readonly TextStyle _takeStyle;
    private readonly IReadOnlyList<string> _depth;
    private readonly IReadOnlyList<string> _where;

    public SowingRow(SowingLine line, SowingColumns columns, TextSetter text)
    {
        (_text, _columns) = (text, columns);
        _codeStyle = text.Fit(line.Code, BatchCode, SowingColumns.CodeWidth, least: 9);
        _code = text.OneLine(line.Code, _codeStyle, SowingColumns.CodeWidth);
        _variety = text.Wrap(line.Variety, Variety, columns.VarietyWidth, most: 3);

        // The lot has lines of its own: taking seed from another one is what the sheet is there to prevent.
        _cropAndLot =
        [
            .. text.Wrap(line.Crop, Detail, columns.VarietyWidth, most: 1),
            .. text.Wrap(line.Lot is null ? "no lot yet" : "lot " + line.Lot, Detail, columns.VarietyWidth, most: 2),
        ];
        _trays =
        [
            .. text.Wrap(line.Trays, Detail, SowingColumns.TraysWidth, most: 2),
            .. text.Wrap(line.SeedsPerCell, Detail, SowingColumns.TraysWidth, most: 1),
        ];
        _takeStyle = text.Fit(line.Take, Figure, SowingColumns.TakeWidth, least: 8);
        _take = text.OneLine(line.Take, _takeStyle, SowingColumns.TakeWidth);
        _depth =
        [
            .. text.Wrap(line.Depth, Detail, SowingColumns.DepthWidth, most: 2),
            .. text.Wrap(line.Light, Detail, SowingColumns.DepthWidth, most: 1),
        ];
        _where = text.Wrap(line.Where, Detail, SowingColumns.WhereWidth, most: 3);
    }

    public double Height => 2 * _padding + new[]
    {
        SowingColumns.BoxSide,
        _variety.Count * Variety.Line + _cropAndLot.Count * Detail.Line,
        _trays.Count * Detail.Line,
        _depth.Count * Detail.Line,
        _where.Count * Detail.Line,
    }.Max();

    public void Draw(XGraphics page, double left, double top)
    {
        var bottom = top + Height;
        top += _padding;
        page.DrawRectangle(Rule, left + 0.5, top + 0.5, SowingColumns.BoxSide - 1, SowingColumns.BoxSide - 1);
        _text.Draw(page, _code, left + SowingColumns.Code, top, _codeStyle);
        var below = _text.DrawLines(page, _variety, left + SowingColumns.Variety, top, Variety);
        _text.DrawLines(page, _cropAndLot, left + SowingColumns.Variety, below, Detail);
        _text.DrawLines(page, _trays, left + _columns.Trays, top + 1, Detail);
        _text.DrawRight(page, _take, left + _columns.Take + SowingColumns.TakeWidth, top, _takeStyle);
        _text.DrawLines(page, _depth, left + _columns.Depth, top + 1, Detail);
        _text.DrawLines(page, _where, left + _columns.Where, top + 1, Detail);
        page.DrawLine(Hairline, left, bottom, left + _columns.Width, bottom);
    }
}
