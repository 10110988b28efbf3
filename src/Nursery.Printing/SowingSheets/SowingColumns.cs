using Nursery.Printing.Drawing;
using PdfSharp.Drawing;
using static Nursery.Printing.Typography;

namespace Nursery.Printing.SowingSheets;

/// <summary>The columns of a sowing sheet; the variety gets what the others leave.</summary>
internal sealed record SowingColumns(double Width)
{
    public const double BoxSide = 5 * Mm;
    public const double TitleHeight = 14;

    private const double _gap = 2.5 * Mm;

    public static double Code => BoxSide + _gap;

    public static double CodeWidth => 30 * Mm;

    public static double Variety => Code + CodeWidth + _gap;

    public double VarietyWidth => Trays - Variety - _gap;

    public double Trays => Take - TraysWidth - _gap;

    public static double TraysWidth => 27 * Mm;

    public double Take => Depth - TakeWidth - _gap;

    public static double TakeWidth => 21 * Mm;

    public double Depth => Where - DepthWidth - _gap;

    public static double DepthWidth => 27 * Mm;

    public double Where => Width - WhereWidth;

    public static double WhereWidth => 25 * Mm;

    public void DrawTitles(XGraphics page, TextSetter text, double left, double top)
    {
        text.Draw(page, "batch", left + Code, top, ColumnTitle);
        text.Draw(page, "variety, crop, lot", left + Variety, top, ColumnTitle);
        text.Draw(page, "trays, seeds", left + Trays, top, ColumnTitle);
        text.DrawRight(page, "seeds to take", left + Take + TakeWidth, top, ColumnTitle);
        text.Draw(page, "depth, light", left + Depth, top, ColumnTitle);
        text.Draw(page, "where to", left + Where, top, ColumnTitle);
        page.DrawLine(Rule, left, top + TitleHeight, left + Width, top + TitleHeight);
    }
}
