using PdfSharp.Drawing;
using static Nursery.Printing.Typography;

namespace Nursery.Printing.Drawing;

/// <summary>A stage as a small tray with its pattern; its word always stands beside it.</summary>
internal static class StageSwatch
{
    public static string Word(StagePattern stage) => stage switch
    {
        StagePattern.Planned => "planned",
        StagePattern.Sown => "sown",
        StagePattern.Emerging => "emerging",
        StagePattern.GrowingOn => "growing on",
        StagePattern.HardeningOff => "hardening off",
        StagePattern.Ready => "ready",
    };

    public static void Draw(XGraphics page, XRect tray, StagePattern stage)
    {
        var outline = new XPen(Ink, 0.8);
        if (stage == StagePattern.Planned)
            outline.DashPattern = [3, 2];
        var state = page.Save();
        page.IntersectClip(tray);
        Fill(page, tray, stage);
        page.Restore(state);
        page.DrawRectangle(outline, tray);
    }

    private static void Fill(XGraphics page, XRect tray, StagePattern stage)
    {
        const double step = 4.5;
        switch (stage)
        {
            case StagePattern.Planned:
                break;
            case StagePattern.Sown:
                ForEachCell(tray, step, (x, y) => page.DrawEllipse(InkBrush, x - 0.9, y - 0.9, 1.8, 1.8));
                break;
            case StagePattern.Emerging:
                ForEachCell(tray, step * 1.5, (x, y) => Seedling(page, x, y));
                break;
            case StagePattern.GrowingOn:
                var stripe = new XPen(Ink, 1.3);
                for (var x = tray.Left - tray.Height; x < tray.Right; x += step)
                    page.DrawLine(stripe, x, tray.Bottom, x + tray.Height, tray.Top);
                break;
            case StagePattern.HardeningOff:
                var grid = Hairline;
                for (var x = tray.Left + step; x < tray.Right; x += step)
                    page.DrawLine(grid, x, tray.Top, x, tray.Bottom);
                for (var y = tray.Top + step; y < tray.Bottom; y += step)
                    page.DrawLine(grid, tray.Left, y, tray.Right, y);
                break;
            case StagePattern.Ready:
                page.DrawRectangle(InkBrush, tray);
                break;
        }
    }

    private static void ForEachCell(XRect tray, double step, Action<double, double> draw)
    {
        int columns = Math.Max(1, (int)(tray.Width / step)), rows = Math.Max(1, (int)(tray.Height / step));
        for (var row = 0; row < rows; row++)
        {
            for (var column = 0; column < columns; column++)
                draw(tray.Left + tray.Width * (column + 0.5) / columns, tray.Top + tray.Height * (row + 0.5) / rows);
        }
    }

    /// <summary>A stem with its two seed leaves.</summary>
    private static void Seedling(XGraphics page, double x, double y)
    {
        var pen = new XPen(Ink, 0.7) { LineCap = XLineCap.Round };
        page.DrawLine(pen, x, y + 2.1, x, y - 0.4);
        page.DrawLine(pen, x, y - 0.4, x - 1.7, y - 1.7);
        page.DrawLine(pen, x, y - 0.4, x + 1.7, y - 1.7);
    }
}
