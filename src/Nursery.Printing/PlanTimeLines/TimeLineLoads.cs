using System.Globalization;
using Nursery.Printing.Drawing;
using Nursery.Printing.Sheets;
using PdfSharp.Drawing;
using static Nursery.Printing.Typography;

namespace Nursery.Printing.PlanTimeLines;

/// <summary>The foot of a section: spaces taken against what there is, week by week, as a number and as a bar. The heading keeps it together.</summary>
internal static class TimeLineLoads
{
    private const double _bar = 4;
    private const double _line = 18;

    public static SheetPiece Of(IReadOnlyList<TimeLineLoad> loads, TimeLineWindow window, TextSetter text)
    {
        var height = SectionHead.Line + loads.Count * _line + 4;
        return new SheetPiece(height, (page, left, top) =>
        {
            page.DrawLine(Rule, left, top, left + window.Right, top);
            text.Draw(page, "Spaces taken on the fullest day of each week", left, top + 2, Strong);
            top += SectionHead.Line;
            foreach (var load in loads)
            {
                text.DrawLines(page, text.Wrap(load.Name, PlanText, TimeLineWindow.Left - 4, 2), left, top, PlanText);
                for (var week = window.FirstWeek; week < Math.Min(load.Weeks.Count, window.FirstWeek + window.Weeks); week++)
                    Week(page, left + window.X(7 * week), top, load, load.Weeks[week], window.Week - 6, text);
                top += _line;
            }
        });
    }

    private static void Week(XGraphics page, double x, double top, TimeLineLoad load, int taken, double width, TextSetter text)
    {
        var over = taken > load.Capacity;
        var words = string.Create(CultureInfo.InvariantCulture, $"{taken:N0} of {load.Capacity:N0}{(over ? ": over" : "")}");
        text.Draw(page, words, x + 2, top, text.Fit(words, over ? PlanText with { Face = Face.TextBold } : PlanText, width, least: 4));
        var box = new XRect(x + 2, top + PlanText.Line + 1, width, _bar);
        page.DrawRectangle(Hairline, box);
        var share = load.Capacity == 0 ? 0 : Math.Clamp((double)taken / load.Capacity, 0, 1);
        if (share > 0)
            page.DrawRectangle(InkBrush, box.Left, box.Top, box.Width * share, box.Height);
    }
}
