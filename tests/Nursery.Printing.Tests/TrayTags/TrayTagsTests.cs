using Nursery.Printing.Tests.Sheets;
using Nursery.Printing.TrayTags;
using Nursery.Testing.Papers;
using Xunit;

namespace Nursery.Printing.Tests.TrayTags;

public class TrayTagsTests
{
    private const double _mm = 72 / 25.4;

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
    [InlineData(TagStock.Labels)]
    [InlineData(TagStock.Stakes)]
    public void Render_WithoutPublicAddress_CarriesOnlyTheCode(TagStock stock)
    {
        var pdf = TrayTagsDocument.Render(SampleSheets.Tags(stock, [SampleSheets.Set(0, trays: 1)], address: null));

        Assert.Equal(["PE-100-A-1"], Assert.Single(ForeignTools.QrCodes(pdf, 203)));
    }

    [Theory]
    [InlineData(TagStock.Letter)]
    [InlineData(TagStock.A4)]
    [InlineData(TagStock.Labels)]
    [InlineData(TagStock.Stakes)]
    public void Render_Code_HasCapitalsOfAtLeastFourMillimetres(TagStock stock)
    {
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
