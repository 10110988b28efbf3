using Nursery.Printing.Drawing;
using PdfSharp.Drawing;
using static Nursery.Printing.Typography;

namespace Nursery.Printing.BenchTags;

/// <summary>The upper part of a sign's further sheets.</summary>
internal static class ContinuedHead
{
    private static readonly TextStyle _code = SignCode.Sized(28) with { Line = 32 };

    public static double Height => SignHouse.Line + _code.Line + 2 * Mm;

    public static void Draw(XGraphics page, TextSetter text, SignPart part, double left, double top, double width)
    {
        text.Draw(page, text.OneLine(part.Tag.House, SignHouse, width / 2 - 8 * Mm), left, top, SignHouse);
        var sheet = $"continued, sheet {part.Sheet} of {part.Sheets}";
        var room = width - text.Width(sheet, SignKind) - 4 * Mm;
        var style = text.Fit(part.Tag.BenchCode, _code, room, least: 12);
        text.Draw(page, text.OneLine(part.Tag.BenchCode, style, room), left, top + SignHouse.Line, style);
        text.DrawRight(page, sheet, left + width, top + SignHouse.Line + 8, SignKind);
    }
}
