using UglyToad.PdfPig.Content;
using Xunit;

namespace Nursery.Testing.Papers;

/// <summary>What must hold for every paper, read back by programs of others.</summary>
public static class PaperReading
{
    /// <summary>Each page is of the stock, nothing leaves its margins, no text lies on another, and the foot says whose it is, when it was
    /// printed and which page of how many.</summary>
    /// <param name="pdf">The paper.</param>
    /// <param name="stock">What it is printed on.</param>
    /// <param name="foot">What stands on every page, such as the site's name.</param>
    public static Readback Holds(byte[] pdf, PaperStock stock, params IEnumerable<string> foot)
    {
        var read = new Readback(pdf);
        Assert.Empty(read.Pages.SelectMany(page => Wrong(page, read.Pages.Count, stock, foot)).Take(8));
        return read;
    }

    /// <summary>
    /// Every code on the first, the middle and the last page says what the text beside it says: as many times as <c>Words</c> stand on a page,
    /// a foreign decoder finds <c>Payload</c> on its picture, and nothing else.
    /// </summary>
    public static void CodesSay(byte[] pdf, Readback read, PaperStock stock, IReadOnlyCollection<(string Words, string Payload)> codes)
    {
        var seen = 0;
        foreach (var number in new[] { 1, (read.Pages.Count + 1) / 2, read.Pages.Count }.Distinct())
        {
            var expected = codes.SelectMany(code => Enumerable.Repeat(code.Payload, Times(code.Words, read.Pages[number - 1]))).ToList();
            var found = ForeignTools.QrCodesAt(pdf, number, stock.DotsPerInch, stock.Tags);
            Assert.Equal(expected.Order(StringComparer.Ordinal), found.Order(StringComparer.Ordinal));
            seen += found.Length;
        }

        Assert.True(seen > 0, "no code was looked at");
    }

    public static int Times(string words, string letters) => letters.Split(Readback.Squeeze(words)).Length - 1;

    private static IEnumerable<string> Wrong(Page page, int pages, PaperStock stock, IEnumerable<string> foot)
    {
        if (Math.Abs(Math.Min(stock.Width, stock.Height) - Math.Min(page.Width, page.Height)) > 0.5
            || Math.Abs(Math.Max(stock.Width, stock.Height) - Math.Max(page.Width, page.Height)) > 0.5)
            yield return $"page {page.Number} is {page.Width} by {page.Height} points";
        foreach (var fault in Readback.Outside(page, stock.Margin).Concat(Readback.LinesOutside(page)).Concat(Readback.Overlaps(page)))
            yield return fault;
        var letters = Readback.LettersOf(page);
        foreach (var words in foot.Append($"Page {page.Number} of {pages}"))
        {
            if (!letters.Contains(Readback.Squeeze(words), StringComparison.OrdinalIgnoreCase))
                yield return $"page {page.Number} does not say {words}";
        }
    }

    private static int Times(string words, Page page) => Times(words, Readback.LettersOf(page));
}
