using Nursery.Testing.Papers;
using Xunit;

namespace Nursery.Printing.Tests.EveryPaper;

/// <summary>What holds for every paper, read back by readers that share no code with the writer: PdfPig, pdftoppm and zbarimg.</summary>
public class EveryPaperTests
{
    public static TheoryData<string> All => [.. PaperCases.All.Keys];

    [Theory]
    [MemberData(nameof(All))]
    public void Render_EveryPaper_ReadsBackWhole(string name)
    {
        var paper = PaperCases.All[name];
        var pdf = paper.Render();

        // A stake shortens the notice: its foot is one line of 70 mm.
        using var read = PaperReading.Holds(
            pdf, paper.Stock, ["Kestrel Beck Nursery", "printed 24 November 2026, 14:05", .. paper.Stock == PaperStock.Stakes ? [] : new[] { "Invented demo data" }]);

        var letters = read.Letters;
        Assert.Empty(paper.Says.Select(say => (say.Words, say.Times, Found: PaperReading.Times(say.Words, letters))).Where(say => say.Times != say.Found).Take(8));
        if (paper.Codes.Count > 0)
            PaperReading.CodesSay(pdf, read, paper.Stock, paper.Codes);
        else if (!name.Contains("tags", StringComparison.Ordinal))
            Assert.Empty(ForeignTools.QrCodesAt(pdf, page: 1, dotsPerInch: 100, paper.Stock.Tags));
    }
}
