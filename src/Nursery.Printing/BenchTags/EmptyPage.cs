using Nursery.Printing.Drawing;
using PdfSharp.Drawing;
using PdfSharp.Pdf;
using static Nursery.Printing.Typography;

namespace Nursery.Printing.BenchTags;

/// <summary>A print of no benches says so: a PDF must have a page, and a blank one looks like a fault.</summary>
internal static class EmptyPage
{
    public static void Draw(PdfDocument document, BenchTagsModel model, TextSetter text)
    {
        var roll = model.Paper == Paper.Roll;
        var sheet = roll ? new SheetSize(BenchLabels.Width, BenchLabels.Height) : SheetSize.Of(model.Paper);
        var margin = roll ? BenchLabels.Margin : SheetSize.Margin;
        var page = document.AddPage();
        page.Width = XUnit.FromPoint(sheet.Width);
        page.Height = XUnit.FromPoint(sheet.Height);
        using var graphics = XGraphics.FromPdfPage(page);
        text.Draw(graphics, "No bench to print a tag for.", margin, margin, SignKind);
        var style = roll ? LabelFoot : Foot;
        var foot = new XRect(margin, sheet.Height - margin - 2 * style.Line, sheet.Width - 2 * margin, 2 * style.Line);
        FootLines.Draw(graphics, text, model.Imprint, "Page 1 of 1", foot, style);
    }
}
