using Nursery.Printing.Drawing;
using Nursery.Printing.Faces;
using PdfSharp.Drawing;
using PdfSharp.Pdf;
using static Nursery.Printing.Typography;

namespace Nursery.Printing.GerminationReports;

/// <summary>The germination page on one sheet: curves over a table of rows. May be called from several threads at once.</summary>
public static class GerminationReportDocument
{
    private const double _margin = 10 * Mm;
    private const double _curvesHeight = 78 * Mm;

    /// <summary>How much room curves have, for whoever lays them out.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A roll has no sheets.</exception>
    public static CurvesRoom CurvesSize(Paper paper) => new(
        SizeOf(paper).Width - 2 * _margin, _curvesHeight, ReportMark.Line, Left: 30, Right: 112, Top: 8, Bottom: 26);

    /// <exception cref="ArgumentOutOfRangeException">A roll has no sheets.</exception>
    public static byte[] Render(GerminationReportModel model)
    {
        FontCatalog.Use();
        var (width, height) = SizeOf(model.Paper);
        using var document = new PdfDocument();
        var page = document.AddPage();
        page.Width = XUnit.FromPoint(width);
        page.Height = XUnit.FromPoint(height);
        using (var graphics = XGraphics.FromPdfPage(page))
        {
            Draw(graphics, model, new XRect(_margin, _margin, width - 2 * _margin, height - 2 * _margin), new TextSetter());
        }

        return PdfFile.Save(document, $"Germination – {model.Site}", $"Printed {model.PrintedAt}");
    }

    private static void Draw(XGraphics page, GerminationReportModel model, XRect area, TextSetter text)
    {
        text.Draw(page, text.OneLine($"Germination by {model.By}", ReportTitle, area.Width), area.Left, area.Top, ReportTitle);
        var top = text.DrawLines(
            page, text.Wrap(model.Subtitle, ReportText, area.Width, most: 2), area.Left, area.Top + ReportTitle.Line, ReportText) + 2 * Mm;
        if (model.Curves is { } curves)
        {
            text.Draw(page, text.OneLine(curves.Title, ReportHead, area.Width), area.Left, top, ReportHead);
            CurvesDrawing.Draw(page, text, curves, new XPoint(area.Left, top + ReportHead.Line), area.Right);
            top += ReportHead.Line + _curvesHeight + 3 * Mm;
        }

        var foot = new XRect(area.Left, area.Bottom - 2 * Foot.Line, area.Width, 2 * Foot.Line);
        if (model.Rows.Count == 0)
            text.Draw(page, "No batch is counted in this choice.", area.Left, top, ReportText);
        else
            new ReportTable(model, text).Draw(page, new XRect(area.Left, top, area.Width, foot.Top - 3 * Mm - top));
        DrawFoot(page, text, model, foot);
    }

    private static void DrawFoot(XGraphics page, TextSetter text, GerminationReportModel model, XRect foot)
    {
        Line(model.Site, "Page 1 of 1", foot.Top);
        Line("Printed " + model.PrintedAt, model.Notice ?? "", foot.Top + Foot.Line);

        void Line(string left, string right, double top)
        {
            text.DrawRight(page, right, foot.Right, top, Foot);
            text.Draw(page, text.OneLine(left, Foot, foot.Width - text.Width(right, Foot) - Foot.Size), foot.Left, top, Foot);
        }
    }

    private static (double Width, double Height) SizeOf(Paper paper) => paper switch
    {
        Paper.Letter => (8.5 * 72, 11 * 72),
        Paper.A4 => (210 * Mm, 297 * Mm),
        _ => throw new ArgumentOutOfRangeException(nameof(paper), paper, "A roll has no sheets."),
    };
}
