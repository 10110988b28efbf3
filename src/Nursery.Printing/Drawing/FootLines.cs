using PdfSharp.Drawing;

namespace Nursery.Printing.Drawing;

/// <summary>Two lines under every sign and sheet: whose paper it is and which page, when it was printed and a warning.</summary>
internal static class FootLines
{
    /// <summary>At the foot of a sheet, inside its margins: "Page 2 of 5".</summary>
    public static void Draw(XGraphics page, TextSetter text, Imprint imprint, int number, int pages, SheetSize sheet)
    {
        var style = Typography.Foot;
        var area = new XRect(SheetSize.Margin, sheet.Height - SheetSize.Margin - 2 * style.Line, sheet.SignWidth, 2 * style.Line);
        Draw(page, text, imprint, FormattableString.Invariant($"Page {number} of {pages}"), area, style);
    }

    public static void Draw(XGraphics page, TextSetter text, Imprint imprint, string pageNumber, XRect area, TextStyle style)
    {
        Line(page, text, imprint.Site, pageNumber, area.Left, area.Right, area.Top, style);
        Line(page, text, "Printed " + imprint.PrintedAt, imprint.Notice ?? "", area.Left, area.Right, area.Top + style.Line, style);
    }

    private static void Line(XGraphics page, TextSetter text, string left, string right, double x, double end, double top, TextStyle style)
    {
        var gap = style.Size;
        right = text.OneLine(right, style, (end - x - gap) * 0.55);
        text.DrawRight(page, right, end, top, style);
        text.Draw(page, text.OneLine(left, style, end - x - gap - text.Width(right, style)), x, top, style);
    }
}
