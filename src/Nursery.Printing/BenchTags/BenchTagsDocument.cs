using Nursery.Printing.BenchTags;
using Nursery.Printing.Drawing;
using Nursery.Printing.Faces;
using PdfSharp.Pdf;

namespace Nursery.Printing.BenchTags;

/// <summary>Bench tags as a PDF file: signs on letter or A4, labels on a roll. May be called from several threads at once.</summary>
public static class BenchTagsDocument
{
    /// <exception cref="ArgumentException">The public address is no http or https address, or too long for a code on a label.</exception>
    public static byte[] Render(BenchTagsModel model)
    {
        FontCatalog.Use();
        using var document = new PdfDocument();
        var text = new TextSetter();
        if (model.Tags.Count == 0)
            EmptyPage.Draw(document, model, text);
        else if (model.Paper == Paper.Roll)
            new BenchLabels(model, text).Draw(document);
        else
            new BenchSheets(model, text).Draw(document);
        return PdfFile.Save(document, $"Bench tags – {model.Imprint.Site}", $"Printed {model.Imprint.PrintedAt}");
    }
}
