using Nursery.Printing.Tests.Sheets;
using Nursery.Printing.TrayTags;
using Xunit;

namespace Nursery.Printing.Tests.TrayTags;

public class TrayTagsTests
{
    private const double _mm = 72 / 25.4;

    /// <summary>Rolls of 2 × 4 in and 1 × 4 in: common practice, no source. Margins as printers and knives need them.</summary>
    public static TheoryData<TagStock, double, double, double> Stocks => new()
    {
        { TagStock.Letter, 8.5 * 72, 11 * 72, 10 * _mm },
        { TagStock.A4, 210 * _mm, 297 * _mm, 10 * _mm },
        { TagStock.Labels, 4 * 72, 2 * 72, 2.5 * _mm },
        { TagStock.Stakes, 4 * 72, 72, 1.2 * _mm },
    };

    [Theory]
    [MemberData(nameof(Stocks))]
    public void Render_AnyTags_StaysInsideMarginsAndOverlapsNothing(TagStock stock, double width, double height, double margin)
    {
        using var read = new Readback(TrayTagsDocument.Render(SampleSheets.Tags(
            stock,
            [
                .. Enumerable.Range(0, 6).Select(i => SampleSheets.Set(i)), SampleSheets.Shared(3), SampleSheets.Shared(4, batches: 12),
                SampleSheets.Wide() with { Trays = 2 }, SampleSheets.WideShared() with { Trays = 2 },
            ])));

        Assert.All(read.Pages, page =>
        {
            Assert.Equal(width, page.Width, 0.5);
            Assert.Equal(height, page.Height, 0.5);
            Assert.Empty(Readback.Outside(page, margin));
            Assert.Empty(Readback.Overlaps(page));
            var letters = Readback.LettersOf(page);
            Assert.Contains("KestrelBeckNursery", letters, StringComparison.Ordinal);
            Assert.Contains("rinted24November2026,14:05", letters, StringComparison.Ordinal);
            Assert.Contains($"Page{page.Number}of{read.Pages.Count}", letters, StringComparison.Ordinal);
        });
    }

    [Theory]
    [InlineData(TagStock.Letter, 10)]
    [InlineData(TagStock.A4, 10)]
    [InlineData(TagStock.Labels, 1)]
    [InlineData(TagStock.Stakes, 1)]
    public void Render_TrayOfASet_SaysWhichOfHowManyAndAllFacts(TagStock stock, int perPage)
    {
        using var read = new Readback(TrayTagsDocument.Render(SampleSheets.Tags(stock, [SampleSheets.Set(1, trays: 18)])));

        Assert.Equal((18 + perPage - 1) / perPage, read.Pages.Count);
        var letters = read.Letters;
        Assert.All(Enumerable.Range(1, 18), tray => Assert.Contains($"tray{tray}of18", letters, StringComparison.Ordinal));
        string[] facts = ["PE-101-B", "‘Żółty Łan’", "Pepper · lot L-443", "sown 3 March 2027", "next: move off heat 14 March", "sown"];
        Assert.All(facts, fact => Assert.Equal(18, letters.Split(Readback.Squeeze(fact)).Length - 1 - (fact == "sown" ? 18 : 0)));
    }

    [Theory]
    [InlineData(TagStock.Letter)]
    [InlineData(TagStock.Labels)]
    [InlineData(TagStock.Stakes)]
    public void Render_SharedTray_ListsItsRowsOfCells(TagStock stock)
    {
        using var read = new Readback(TrayTagsDocument.Render(SampleSheets.Tags(stock, [SampleSheets.Shared(3)])));

        var letters = read.Letters;
        Assert.Contains("PE-103-D-1", letters, StringComparison.Ordinal);
        for (var batch = 0; batch < 4; batch++)
        {
            Assert.Contains(
                Readback.Squeeze($"cell rows {3 * batch + 1}–{3 * batch + 3} · {SampleSheets.Code(503 + batch)}"), letters, StringComparison.Ordinal);
        }
    }

    [Theory]
    [MemberData(nameof(Stocks))]
    public void Render_AThousandTags_PrintsEachOnce(TagStock stock, double width, double height, double margin)
    {
        Assert.True(margin < width && margin < height);
        using var read = new Readback(TrayTagsDocument.Render(
            SampleSheets.Tags(stock, [.. Enumerable.Range(0, 100).Select(i => SampleSheets.Set(i, trays: 10))])));

        var letters = read.Letters;
        Assert.All(Enumerable.Range(0, 100), i => Assert.Equal(10, letters.Split(SampleSheets.Code(i)).Length - 1));
        Assert.Equal(100, letters.Split("tray7of10").Length - 1);
    }

    [Theory]
    [MemberData(nameof(Stocks))]
    public void Render_NoTag_PrintsOnePageThatSaysSo(TagStock stock, double width, double height, double margin)
    {
        Assert.True(margin < width && margin < height);
        using var read = new Readback(TrayTagsDocument.Render(SampleSheets.Tags(stock, [])));

        Assert.Single(read.Pages);
        Assert.Contains("Notraytoprintatagfor.", read.Letters, StringComparison.Ordinal);
        Assert.Empty(Readback.Overlaps(read.Pages[0]));
    }

    [Theory]
    [InlineData(TagStock.Letter, 300, 10)]
    [InlineData(TagStock.A4, 300, 10)]
    [InlineData(TagStock.Labels, 203, 1)]
    [InlineData(TagStock.Stakes, 203, 1)]
    public void Render_WithPublicAddress_ForeignDecoderReadsEveryTag(TagStock stock, int dotsPerInch, int perPage)
    {
        var pdf = TrayTagsDocument.Render(SampleSheets.Tags(stock, [SampleSheets.Set(0, trays: 10), SampleSheets.Shared(3)]));

        var read = ForeignTools.QrCodes(pdf, dotsPerInch);

        string[] expected = [.. Enumerable.Repeat("HTTPS://KESTREL-BECK.EXAMPLE/T/PE-100-A-1", 10), "HTTPS://KESTREL-BECK.EXAMPLE/T/PE-103-D-1"];
        Assert.Equal(expected, read.SelectMany(page => page).Order(StringComparer.Ordinal));
        Assert.All(read, page => Assert.InRange(page.Length, 1, perPage));
    }

    [Theory]
    [InlineData(TagStock.Labels)]
    [InlineData(TagStock.Stakes)]
    public void Render_WithoutPublicAddress_CarriesOnlyTheCode(TagStock stock)
    {
        var pdf = TrayTagsDocument.Render(SampleSheets.Tags(stock, [SampleSheets.Set(0, trays: 1)], address: null));

        Assert.Equal(["PE-100-A-1"], Assert.Single(ForeignTools.QrCodes(pdf, 203)));
    }

    [Theory]
    [MemberData(nameof(Stocks))]
    public void Render_Code_HasCapitalsOfAtLeastFourMillimetres(TagStock stock, double width, double height, double margin)
    {
        Assert.True(margin < width && margin < height);
        using var read = new Readback(TrayTagsDocument.Render(SampleSheets.Tags(stock, [SampleSheets.Wide() with { Trays = 1 }])));

        // The code is the largest text on a tag; capitals of its face are 0.668 of the size (OS/2 table of the embedded file, sCapHeight).
        Assert.True(read.Pages[0].Letters.Max(letter => letter.PointSize) * 0.668 / _mm >= 4, "capitals under 4 mm");
    }

    [Fact]
    public void Print_HalfDrawn_NumbersItsPagesAsPartsOfTheWhole()
    {
        using var print = new TrayTagsPrint(SampleSheets.Tags(TagStock.Letter, [SampleSheets.Set(0, trays: 95)]));
        var drawn = new List<int>();
        while (print.Drawn < 20 && print.DrawNext())
            drawn.Add(print.Drawn);

        using var file = new Readback(print.Save());
        Assert.Equal([10, 20], drawn);
        Assert.Equal(2, file.Pages.Count);
        Assert.Contains(Readback.Squeeze("Page 2 of 10"), Readback.LettersOf(file.Pages[1]), StringComparison.Ordinal);
    }
}
