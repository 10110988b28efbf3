using UglyToad.PdfPig;
using UglyToad.PdfPig.Content;
using UglyToad.PdfPig.Core;

namespace Nursery.Testing.Papers;

/// <summary>A printed file read back by PdfPig, a reader that shares no code with the writer.</summary>
public sealed class Readback : IDisposable
{
    private const double Slack = 0.2;

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
        var letters = page.Letters.Where(letter => !string.IsNullOrWhiteSpace(letter.Value))
            .Select((letter, place) => (Letter: letter, Place: place, Box: letter.BoundingBox)).OrderBy(one => one.Box.Left).ToList();
        for (var i = 0; i < letters.Count; i++)
        {
            // From left to right: what begins behind the end of a letter meets it no more.
            for (var j = i + 1; j < letters.Count && letters[j].Box.Left + Slack < letters[i].Box.Right; j++)
            {
                if (Math.Abs(letters[i].Place - letters[j].Place) > 1 && Meet(letters[i].Box, letters[j].Box))
                    yield return $"page {page.Number}: '{letters[i].Letter.Value}' at {letters[i].Letter.StartBaseLine} and '{letters[j].Letter.Value}' at {letters[j].Letter.StartBaseLine}";
            }
        }
    }

    /// <summary>Lines and areas that leave the paper.</summary>
    public static IEnumerable<string> LinesOutside(Page page) =>
        from path in page.Paths
        where path.IsStroked || path.IsFilled
        let box = path.GetBoundingRectangle()
        where box is not null
        where box.Value.Left < -0.1 || box.Value.Bottom < -0.1 || box.Value.Right > page.Width + 0.1 || box.Value.Top > page.Height + 0.1
        select $"page {page.Number}: {box}";

    public static IEnumerable<string> Outside(Page page, double margin) =>
        from letter in page.Letters
        let box = letter.BoundingBox
        where !string.IsNullOrWhiteSpace(letter.Value)
        where box.Left < margin || box.Bottom < margin || box.Right > page.Width - margin || box.Top > page.Height - margin
        select $"page {page.Number}: '{letter.Value}' at {box}";

    public void Dispose() => _document.Dispose();

    private static bool Meet(PdfRectangle a, PdfRectangle b) =>
        a.Left + Slack < b.Right && b.Left + Slack < a.Right && a.Bottom + Slack < b.Top && b.Bottom + Slack < a.Top;
}
