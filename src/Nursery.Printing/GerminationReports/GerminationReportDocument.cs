using Nursery.Printing.Drawing;
using Nursery.Printing.Faces;
using PdfSharp.Drawing;
using PdfSharp.Pdf;
using static Nursery.Printing.Typography;

namespace Nursery.Printing.GerminationReports;

/// <summary>The germination page on one sheet: curves over a table of rows. May be called from several threads at once.</summary>
public static class GerminationReportDocument
{
    private const double _curvesHeight = 78 * Mm;

    /// <summary>How much room curves have, for whoever lays them out.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A roll has no sheets.</exception>
    public static CurvesRoom CurvesSize(Paper paper) => new(
        SheetSize.Of(paper).SignWidth, _curvesHeight, ReportMark.Line, Left: 30, Right: 112, Top: 8, Bottom: 26);

    /// <exception cref="ArgumentOutOfRangeException">A roll has no sheets.</exception>
    public static byte[] Render(GerminationReportModel model)
    {
        FontCatalog.Use();
        var size = SheetSize.Of(model.Paper);
        using var document = new PdfDocument();
        var page = document.AddPage();
        page.Width = XUnit.FromPoint(size.Width);
        page.Height = XUnit.FromPoint(size.Height);
        using (var graphics = XGraphics.FromPdfPage(page))
        {
            var text = new TextSetter();
            Draw(graphics, model, size.Place(half: false, lower: false), text);
            FootLines.Draw(graphics, text, model.Imprint, 1, 1, size);
        }

        return PdfFile.Save(document, $"Germination – {model.Imprint.Site}", $"Printed {model.Imprint.PrintedAt}");
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

        if (model.Rows.Count == 0)
            text.Draw(page, "No batch is counted in this choice.", area.Left, top, ReportText);
        else
            new ReportTable(model, text).Draw(page, new XRect(area.Left, top, area.Width, area.Bottom - 2 * Foot.Line - 3 * Mm - top));
    }
}
