using Nursery.Printing.Drawing;
using PdfSharp.Drawing;
using PdfSharp.Pdf;
using static Nursery.Printing.Typography;

namespace Nursery.Printing.BenchTags;

/// <summary>Signs on letter or A4: small ones two to a sheet with a cut line, in the order given.</summary>
internal sealed class BenchSheets(BenchTagsModel model, TextSetter text)
{
    private readonly SheetSize _sheet = SheetSize.Of(model.Paper);

    public void Draw(PdfDocument document)
    {
        var sign = new BenchSign(model, _sheet, text);
        var pages = InPages(model.Tags.SelectMany(sign.Parts));
        for (var i = 0; i < pages.Count; i++)
        {
            var page = document.AddPage();
            page.Width = XUnit.FromPoint(_sheet.Width);
            page.Height = XUnit.FromPoint(_sheet.Height);
            using var graphics = XGraphics.FromPdfPage(page);
            var number = $"Page {i + 1} of {pages.Count}";
            for (var place = 0; place < pages[i].Count; place++)
                sign.Draw(graphics, pages[i][place], _sheet.Place(pages[i][place].Half, lower: place == 1), number);
            if (pages[i].Count == 2)
                graphics.DrawLine(CutLine, 0, _sheet.CutAt, _sheet.Width, _sheet.CutAt);
        }
    }

    private static List<List<SignPart>> InPages(IEnumerable<SignPart> parts)
    {
        var pages = new List<List<SignPart>>();
        foreach (var part in parts)
        {
            if (part.Half && pages.Count > 0 && pages[^1] is [{ Half: true }])
                pages[^1].Add(part);
            else
                pages.Add([part]);
        }

        return pages;
    }
}
