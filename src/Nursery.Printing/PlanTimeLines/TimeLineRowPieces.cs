using Nursery.Printing.Drawing;
using Nursery.Printing.Sheets;
using PdfSharp.Drawing;
using static Nursery.Printing.Typography;

namespace Nursery.Printing.PlanTimeLines;

/// <summary>A zone or bench in one window of weeks: setpoints, then its bars in as many lines as they need beside each other. A row that
/// does not fit goes on as "continued".</summary>
internal sealed class TimeLineRowPieces(TimeLineWindow window, TextSetter text)
{
    private const double _line = 10.5;
    private const double _bar = 9.5;
    private const double _gap = 3;

    /// <summary>Between one bar with its words and the next, so that words are seen to belong to the nearer one.</summary>
    private const double _apart = 8;

    /// <summary>Fewer lines of a row are not left at the foot of a page.</summary>
    private const int _least = 5;

    /// <param name="row">Zone or bench.</param>
    /// <param name="left">Height left on the page.</param>
    /// <param name="room">Of a whole page.</param>
    public IEnumerable<SheetPiece> Of(TimeLineRow row, double left, double room)
    {
        var setpoints = row.Setpoints.Where(set => window.Has(set.From, set.To)).ToList();
        var lines = Lines(row.Bars.Where(bar => window.Has(bar.From, bar.To)));
        var head = setpoints.Count > 0 ? _line : 0;
        var (most, here) = (Math.Max(1, Fit(room)), Fit(left));
        var take = lines.Count > here && here >= _least ? here : most;
        yield return Piece(row.Name, row.Below, setpoints, [.. lines.Take(take)]);
        foreach (var part in lines.Skip(take).Chunk(most))
            yield return Piece($"{row.Name}, continued", row.Below, setpoints, part);

        int Fit(double height) => (int)((height - head - _gap) / _line);
    }

    /// <summary>Each bar in the first line in which it and its words meet no other.</summary>
    private List<List<TimeLineLabel>> Lines(IEnumerable<TimeLineBar> bars)
    {
        var (lines, ends) = (new List<List<TimeLineLabel>>(), new List<double>());
        foreach (var label in bars.Select(bar => new TimeLineLabel(bar, window, text)).OrderBy(label => label.Begin).ThenBy(label => label.Bar.From))
        {
            var line = ends.FindIndex(end => end <= label.Begin);
            if (line < 0)
            {
                line = lines.Count;
                lines.Add([]);
                ends.Add(0);
            }

            lines[line].Add(label);
            ends[line] = label.End + _apart;
        }

        return lines;
    }

    private SheetPiece Piece(string name, string below, List<TimeLineSetpoint> setpoints, List<TimeLineLabel>[] lines)
    {
        var names = text.Wrap(name, Strong, TimeLineWindow.Left - 4, 3);
        var under = text.Wrap(below, PlanText, TimeLineWindow.Left - 4, 2);
        var top = setpoints.Count > 0 ? _line : 0;
        var height = Math.Max(top + lines.Length * _line, names.Count * Strong.Line + under.Count * PlanText.Line) + _gap;
        return new SheetPiece(height, (page, left, y) =>
        {
            Grid(page, left, y, height);
            text.DrawLines(page, under, left, text.DrawLines(page, names, left, y + 1, Strong), PlanText);
            foreach (var set in setpoints)
                Setpoint(page, left, y, set);
            for (var i = 0; i < lines.Length; i++)
            {
                foreach (var label in lines[i])
                    Bar(page, left, y + 1 + top + i * _line, label);
            }
        });
    }

    private void Grid(XGraphics page, double left, double top, double height)
    {
        page.DrawLine(Hairline, left, top, left + window.Right, top);
        for (var week = 0; week <= window.Weeks; week++)
        {
            var x = left + TimeLineWindow.Left + week * window.Week;
            page.DrawLine(Dotted, x, top, x, top + height);
        }
    }

    private void Setpoint(XGraphics page, double left, double top, TimeLineSetpoint set)
    {
        var (from, to) = (left + window.X(set.From), left + window.X(set.To));
        page.DrawLine(Rule, from, top, from, top + _line);
        page.DrawLine(Hairline, from, top + _line, to, top + _line);
        text.Draw(page, text.OneLine(set.Words, Setting, to - from - 3), from + 2, top + 0.5, Setting);
    }

    private void Bar(XGraphics page, double left, double top, TimeLineLabel label)
    {
        var box = new XRect(left + label.From, top, Math.Max(1, label.To - label.From - 0.8), _bar);
        Sample(page, box, label.Bar.Stands);
        page.DrawRectangle(XBrushes.White, left + label.At - 1, top + 0.6, label.Width + 2, _bar - 1.2);
        text.Draw(page, label.Words, left + label.At, top + 0.5, PlanCode);
        if (label.Variety.Length == 0)
            return;
        page.DrawRectangle(XBrushes.White, left + label.VarietyAt - 1, top + 0.6, text.Width(label.Variety, PlanText) + 2, _bar - 1.2);
        text.Draw(page, label.Variety, left + label.VarietyAt, top, PlanText);
    }

    /// <summary>A bar without its words.</summary>
    public static void Sample(XGraphics page, XRect box, bool stands)
    {
        page.DrawRectangle(new XPen(Ink, 0.7), XBrushes.White, box);
        if (stands)
            Hatch(page, box);
    }

    private static void Hatch(XGraphics page, XRect box)
    {
        var state = page.Save();
        page.IntersectClip(box);
        for (var x = box.Left - box.Height; x < box.Right; x += 3.5)
            page.DrawLine(Hairline, x, box.Bottom, x + box.Height, box.Top);
        page.Restore(state);
    }
}
