using System.Globalization;
using Nursery.Printing.Drawing;
using PdfSharp.Drawing;
using static Nursery.Printing.Typography;

namespace Nursery.Printing.BenchTags;

/// <summary>One batch in the table of a sign, broken into lines for its columns.</summary>
internal sealed class BatchRow
{
    private const double _padding = 4;

    private readonly TextSetter _text;
    private readonly BatchColumns _columns;
    private readonly StagePattern _stage;
    private readonly string _code;
    private readonly TextStyle _codeStyle;
    private readonly string _spaces;
    private readonly TextStyle _spacesStyle;
    private readonly IReadOnlyList<string> _sown;
    private readonly IReadOnlyList<string> _variety;
    private readonly IReadOnlyList<string> _cropAndLot;
    private readonly IReadOnlyList<string> _trays;
    private readonly IReadOnlyList<string> _next;

    public BatchRow(BenchTagRow row, BatchColumns columns, TextSetter text)
    {
        _text = text;
        _columns = columns;
        _stage = row.Stage;
        _codeStyle = text.Fit(row.Code, BatchCode, BatchColumns.CodeWidth, least: 9);
        _code = text.OneLine(row.Code, _codeStyle, BatchColumns.CodeWidth);
        _sown = text.Wrap(row.Sown is null ? "not sown yet" : "sown " + row.Sown, Detail, BatchColumns.CodeWidth, most: 2);
        _variety = text.Wrap(row.Variety, Variety, columns.VarietyWidth, most: 3);
        _cropAndLot = text.Wrap(row.Lot is null ? row.Crop : $"{row.Crop} · lot {row.Lot}", Detail, columns.VarietyWidth, most: 2);
        _spacesStyle = text.Fit(row.Spaces, Figure, BatchColumns.SpacesWidth, least: 9);
        _spaces = text.OneLine(row.Spaces, _spacesStyle, BatchColumns.SpacesWidth);
        var trays = row.Trays.ToString(CultureInfo.InvariantCulture) + (row.Trays == 1 ? " tray" : " trays");
        _trays =
        [
            .. text.Wrap(row.Cells is null ? trays : trays + ", shared", Detail, BatchColumns.SpacesWidth, most: 1),
            .. text.Wrap(row.Cells ?? "", Detail, BatchColumns.SpacesWidth, most: 2),
        ];
        _next = text.Wrap(row.NextStep ?? "", Detail, BatchColumns.NextWidth, most: 3);
    }

    public double Height => 2 * _padding + new[]
    {
        BatchColumns.SwatchHeight + StageWord.Line + 2,
        BatchCode.Line + _sown.Count * Detail.Line,
        _variety.Count * Variety.Line + _cropAndLot.Count * Detail.Line,
        Figure.Line + _trays.Count * Detail.Line,
        _next.Count * Detail.Line,
    }.Max();

    public void Draw(XGraphics page, double left, double top)
    {
        top += _padding;
        var swatch = new XRect(left, top + 1, BatchColumns.SwatchWidth, BatchColumns.SwatchHeight);
        StageSwatch.Draw(page, swatch, _stage);
        _text.Draw(page, StageSwatch.Word(_stage), left, swatch.Bottom + 1, StageWord);

        _text.Draw(page, _code, left + BatchColumns.Code, top, _codeStyle);
        _text.DrawLines(page, _sown, left + BatchColumns.Code, top + BatchCode.Line, Detail);

        var below = _text.DrawLines(page, _variety, left + BatchColumns.Variety, top, Variety);
        _text.DrawLines(page, _cropAndLot, left + BatchColumns.Variety, below, Detail);

        _text.Draw(page, _spaces, left + _columns.Spaces, top, _spacesStyle);
        _text.DrawLines(page, _trays, left + _columns.Spaces, top + Figure.Line, Detail);

        _text.DrawLines(page, _next, left + _columns.Next, top + 1, Detail);
    }
}
