using Nursery.Printing.Drawing;
using PdfSharp.Drawing;
using static Nursery.Printing.Typography;

namespace Nursery.Printing.GerminationReports;

/// <summary>Curves as vectors: axes with their words, a line a batch with its label at the end.</summary>
internal static class CurvesDrawing
{
    public static void Draw(XGraphics page, TextSetter text, PrintedCurves curves, XPoint corner, double right)
    {
        double X(double x) => corner.X + x;
        double Y(double y) => corner.Y + y;
        foreach (var (at, mark) in curves.Percents)
        {
            page.DrawLine(Dotted, X(curves.Left), Y(at), X(curves.Right), Y(at));
            text.DrawRight(page, mark + " %", X(curves.Left) - 3, Y(at) - ReportMark.Line / 2, ReportMark);
        }

        foreach (var (at, mark) in curves.Days)
        {
            page.DrawLine(Hairline, X(at), Y(curves.Bottom), X(at), Y(curves.Bottom) + 3);
            text.Draw(page, mark, X(at) - text.Width(mark, ReportMark) / 2, Y(curves.Bottom) + 4, ReportMark);
        }

        page.DrawLine(Rule, X(curves.Left), Y(curves.Top), X(curves.Left), Y(curves.Bottom));
        page.DrawLine(Rule, X(curves.Left), Y(curves.Bottom), X(curves.Right), Y(curves.Bottom));
        const string words = "days after sowing (lines: seeds up, % of those in counted cells)";
        text.Draw(page, words, X(curves.Left), Y(curves.Bottom) + 4 + ReportMark.Line, ReportMark);
        foreach (var level in curves.Levels)
            Line(level, CutLine);
        foreach (var line in curves.Lines)
        {
            Line(line, new XPen(Ink, 1.1) { LineJoin = XLineJoin.Round });
            foreach (var (x, y) in line.Points.Skip(1))
                page.DrawEllipse(InkBrush, X(x) - 1.4, Y(y) - 1.4, 2.8, 2.8);
        }

        void Line(PrintedCurve line, XPen pen)
        {
            page.DrawLines(pen, [.. line.Points.Select(point => new XPoint(X(point.X), Y(point.Y)))]);
            if (line.LabelAt is not { } at)
                return;
            var (endX, endY) = line.Points[^1];
            page.DrawLine(Hairline, X(endX) + 2, Y(endY), X(curves.Right) + 8, Y(at));
            var left = X(curves.Right) + 10;
            text.Draw(page, text.OneLine(line.Label, ReportMark, right - left), left, Y(at) - ReportMark.Line / 2, ReportMark);
        }
    }
}
