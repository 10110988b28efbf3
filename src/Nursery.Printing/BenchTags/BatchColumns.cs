using Nursery.Printing.Drawing;
using PdfSharp.Drawing;
using static Nursery.Printing.Typography;

namespace Nursery.Printing.BenchTags;

/// <summary>The columns of a sign's table; the variety gets what the others leave.</summary>
internal sealed record BatchColumns(double Width)
{
    public const double SwatchWidth = 18 * Mm;
    public const double SwatchHeight = 6 * Mm;
    public const double TitleHeight = 14;

    private const double _gap = 3 * Mm;

    public static double Code => 23 * Mm;

    public static double CodeWidth => 33 * Mm;

    public static double Variety => Code + CodeWidth + _gap;

    public double VarietyWidth => Spaces - Variety - _gap;

    public double Spaces => Next - SpacesWidth - _gap;

    public static double SpacesWidth => 24 * Mm;

    public double Next => Width - NextWidth;

    public static double NextWidth => 41 * Mm;

    public void DrawTitles(XGraphics page, TextSetter text, double left, double top)
    {
        text.Draw(page, "stage", left, top, ColumnTitle);
        text.Draw(page, "batch", left + Code, top, ColumnTitle);
        text.Draw(page, "variety, crop, lot", left + Variety, top, ColumnTitle);
        text.Draw(page, "spaces", left + Spaces, top, ColumnTitle);
        text.Draw(page, "next", left + Next, top, ColumnTitle);
        page.DrawLine(Rule, left, top + TitleHeight, left + Width, top + TitleHeight);
    }
}
