using UglyToad.PdfPig;
using UglyToad.PdfPig.Content;
using UglyToad.PdfPig.Core;

namespace Nursery.Printing.Tests;

/// <summary>A printed file read back by PdfPig, a reader that shares no code with the writer.</summary>
internal sealed class Readback : IDisposable
{
    private readonly PdfDocument _document;

    public Readback(byte[] file)
    {
        _document = PdfDocument.Open(file);
        Pages = [.. _document.GetPages()];
    }

    public IReadOnlyList<Page> Pages { get; }

    public string? Title => _document.Information.Title;

    /// <summary>The letters without any space: one word may be set from two font files, which word finders cut.</summary>
    public string Letters => string.Concat(Pages.Select(LettersOf));

    public static string LettersOf(Page page) => Squeeze(string.Concat(page.Letters.Select(letter => letter.Value)));

    public static string Squeeze(string text) => string.Concat(text.Where(c => !char.IsWhiteSpace(c)));

    /// <summary>Letters that stand on top of letters of another word; touching by less than a fifth of a point is kerning.</summary>
    public static IEnumerable<string> Overlaps(Page page)
    {
        var letters = page.Letters.Where(letter => !string.IsNullOrWhiteSpace(letter.Value)).ToList();
        for (var i = 0; i < letters.Count; i++)
        {
            for (var j = i + 2; j < letters.Count; j++)
            {
                if (Meet(letters[i].BoundingBox, letters[j].BoundingBox))
                    yield return $"page {page.Number}: '{letters[i].Value}' at {letters[i].StartBaseLine} and '{letters[j].Value}' at {letters[j].StartBaseLine}";
            }
        }
    }

    public static IEnumerable<string> Outside(Page page, double margin) =>
        from letter in page.Letters
        let box = letter.BoundingBox
        where !string.IsNullOrWhiteSpace(letter.Value)
        where box.Left < margin || box.Bottom < margin || box.Right > page.Width - margin || box.Top > page.Height - margin
        select $"page {page.Number}: '{letter.Value}' at {box}";

    public void Dispose() => _document.Dispose();

    private static bool Meet(PdfRectangle a, PdfRectangle b)
    {
        const double slack = 0.2;
        return a.Left + slack < b.Right && b.Left + slack < a.Right && a.Bottom + slack < b.Top && b.Bottom + slack < a.Top;
    }
}
