using Nursery.Printing.Pictures;

namespace Nursery.Application.Papers;

/// <summary>A page of a paper as a picture (PNG), before it is printed.</summary>
/// <param name="Png">Null where the program that draws is not installed: the paper itself opens all the same.</param>
public sealed record PaperPicture(byte[]? Png, int Page, int Pages)
{
    /// <summary>Pixels across, sharp on a screen of twice the usual density.</summary>
    private const int Width = 1200;

    /// <summary>The page, or the last one when the paper has fewer.</summary>
    public static async Task<PaperPicture> OfAsync(byte[] pdf, int page, CancellationToken cancellation = default)
    {
        var pages = PdfPictures.PagesOf(pdf);
        var shown = Math.Clamp(page, 1, pages);
        return new PaperPicture(PdfPictures.Available ? await PdfPictures.DrawAsync(pdf, shown, Width, cancellation) : null, shown, pages);
    }
}
