using Nursery.Printing.Drawing;
using Nursery.Printing.Faces;
using PdfSharp.Pdf;

namespace Nursery.Printing.SowingSheets;

/// <summary>A sowing sheet as a PDF file: days, a line a batch, a box to tick. May be called from several threads at once.</summary>
public static class SowingSheetDocument
{
    /// <exception cref="ArgumentOutOfRangeException">The paper is a roll.</exception>
    public static byte[] Render(SowingSheetModel model)
    {
        FontCatalog.Use();
        using var document = new PdfDocument();
        new SowingPages(model, new TextSetter()).Draw(document);
        return PdfFile.Save(document, $"Sowing sheet – {model.Imprint.Site}", $"{model.Span}, printed {model.Imprint.PrintedAt}");
    }
}
