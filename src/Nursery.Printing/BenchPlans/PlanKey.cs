using System.Globalization;
using Nursery.Printing.Drawing;
using PdfSharp.Drawing;
using static Nursery.Printing.Typography;

namespace Nursery.Printing.BenchPlans;

/// <summary>The list under a plan: every run of trays with its number, and what the patterns mean.</summary>
internal sealed class PlanKey
{
    private const int _columns = 3;
    private const double _gap = 4 * Mm;
    private const double _number = 15;

    /// <summary>The house keeps at least this share of the height.</summary>
    private const double _most = 0.5;

    private readonly TextSetter _text;
    private readonly TextStyle _style;
    private readonly double _width;
    private readonly IReadOnlyList<(int Number, string Bench, PlanTrays Trays)> _entries;
    private readonly int _lines;

    public PlanKey(IReadOnlyList<(int Number, string Bench, PlanTrays Trays)> entries, double width, double height, TextSetter text)
    {
        _text = text;
        _entries = entries;
        _width = (width - (_columns - 1) * _gap) / _columns;
        var room = height * _most - LegendHeight;
        var lines = (entries.Count + _columns - 1) / _columns;
        var shrink = Math.Clamp(room / Math.Max(1, lines * PlanText.Line), 0.75, 1);
        _style = PlanText with { Size = PlanText.Size * shrink, Line = PlanText.Line * shrink };
        _lines = Math.Min(lines, (int)(room / _style.Line));
    }

    public double Height => LegendHeight + _lines * _style.Line;

    private static double LegendHeight => 17;

    public void Draw(XGraphics page, double left, double top)
    {
        DrawLegend(page, left, top);
        top += LegendHeight;
        var shown = Math.Min(_entries.Count, _lines * _columns - (_entries.Count > _lines * _columns ? 1 : 0));
        for (var i = 0; i < shown; i++)
        {
            var (x, y) = Place(i, left, top);
            var (number, bench, trays) = _entries[i];
            _text.DrawRight(page, number.ToString(CultureInfo.InvariantCulture), x + _number - 4, y, _style with { Face = Face.TextBold });
            var spaces = trays.FirstSpace is { } first ? Run(first, trays.Spaces) : "not said where";
            _text.Draw(
                page, _text.OneLine($"{bench} {spaces} · {trays.Code} {trays.Variety} · {trays.Trays}", _style, _width - _number), x + _number, y, _style);
        }

        if (shown < _entries.Count)
        {
            var (x, y) = Place(shown, left, top);
            _text.Draw(page, _text.OneLine($"+ {_entries.Count - shown} more: see the bench tags", _style, _width - _number), x + _number, y, _style);
        }
    }

    private (double X, double Y) Place(int entry, double left, double top) =>
        (left + entry / _lines * (_width + _gap), top + entry % _lines * _style.Line);

    private void DrawLegend(XGraphics page, double left, double top)
    {
        foreach (var stage in Enum.GetValues<StagePattern>())
        {
            StageSwatch.Draw(page, new XRect(left, top + 2, 20, 9), stage);
            var word = StageSwatch.Word(stage);
            _text.Draw(page, word, left + 23, top + 1, PlanText);
            left += 23 + _text.Width(word, PlanText) + 12;
        }
    }

    private static string Run(int first, int count) => count == 1
        ? first.ToString(CultureInfo.InvariantCulture)
        : string.Create(CultureInfo.InvariantCulture, $"{first}–{first + count - 1}");
}
