using System.Globalization;
using Nursery.Printing.BenchTags;
using Nursery.Printing.Drawing;
using Nursery.Printing.Tests.Sheets;
using Nursery.Testing.Papers;
using Xunit;

namespace Nursery.Printing.Tests.BenchTags;

public class BenchTagsDocumentTests
{
    [Theory]
    [InlineData(Paper.Letter)]
    [InlineData(Paper.A4)]
    public void Render_BenchWithManyRows_PrintsEveryRowOnceOnContinuedSheets(Paper paper)
    {
        var tag = SampleTags.Bench("2C", rows: 40);
        using var read = new Readback(BenchTagsDocument.Render(SampleTags.Model(paper, [tag])));

        var letters = read.Letters;
        Assert.True(read.Pages.Count >= 3);
        Assert.All(tag.Rows, row =>
        {
            Assert.Equal(1, CountOf(row.Code, letters));
            Assert.Contains(Readback.Squeeze(row.Variety), letters, StringComparison.Ordinal);
            if (row.Lot is not null)
                Assert.Contains(Readback.Squeeze($"{row.Crop} · lot {row.Lot}"), letters, StringComparison.Ordinal);
            if (row.Sown is not null)
                Assert.Contains(Readback.Squeeze("sown " + row.Sown), letters, StringComparison.Ordinal);
        });
        Assert.All(read.Pages.Skip(1), page => Assert.Contains("continued,sheet", Readback.LettersOf(page), StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(Paper.Letter)]
    [InlineData(Paper.A4)]
    public void Render_SmallBench_PrintsAllItsFacts(Paper paper)
    {
        using var read = new Readback(BenchTagsDocument.Render(SampleTags.Model(paper, [SampleTags.Bench("2A")])));

        string[] facts =
        [
            "House 2", "Bench 2A", "germination · 60 tray spaces", "80 °F", "zone 2A-1 · spaces 1–30", "emerging", "growing on",
            "PE-100-A", "‘Inkwell’", "‘Żółty Łan’", "‘Señor Peñasco’", "Pepper · lot L-2A-442", "sown 1 March 2027", "1–3", "2 trays",
            "move off heat 14 March, or when half of the cells are up",
        ];
        Assert.All(facts, fact => Assert.Contains(Readback.Squeeze(fact), read.Letters, StringComparison.Ordinal));
        Assert.Equal(2, CountOf("2A", read.Letters.Replace("Bench2A", "", StringComparison.Ordinal).Replace("2A-", "", StringComparison.Ordinal)));
    }

    [Theory]
    [InlineData(Paper.Letter)]
    [InlineData(Paper.A4)]
    public void Render_TwoSmallBenches_ShareASheet(Paper paper)
    {
        using var read = new Readback(BenchTagsDocument.Render(
            SampleTags.Model(paper, [SampleTags.Bench("2A", rows: 2), SampleTags.Bench("2B", rows: 2)])));

        Assert.Single(read.Pages);
    }

    [Theory]
    [InlineData(Paper.Letter)]
    [InlineData(Paper.A4)]
    public void Render_SharedTray_KeepsItsBatchesOnOneSheet(Paper paper)
    {
        // The unshared rows before it push the tray over the end of the first sheet at some count.
        for (var before = 1; before < 24; before++)
        {
            var tag = SampleTags.Shared("2D") with
            {
                Rows =
                [
                    .. Enumerable.Range(10, before).Select(i => SampleTags.Row("2D", i)),
                    .. SampleTags.Shared("2D").Rows.Where(row => row.Cells is not null),
                ],
            };
            using var read = new Readback(BenchTagsDocument.Render(SampleTags.Model(paper, [tag])));

            Assert.Single(read.Pages, page => Readback.LettersOf(page).Contains("cellrows", StringComparison.Ordinal));
            Assert.Equal(4, CountOf("1tray,shared", read.Letters));
        }
    }

    [Fact]
    public void Render_RollWithMoreRowsThanFit_SaysHowManyMore()
    {
        using var read = new Readback(BenchTagsDocument.Render(SampleTags.Model(Paper.Roll, [SampleTags.Bench("2A", rows: 12)])));

        var shown = SampleTags.Bench("2A", rows: 12).Rows.Count(row => read.Letters.Contains(row.Code, StringComparison.Ordinal));
        Assert.InRange(shown, 3, 11);
        Assert.Contains("emerging", read.Letters, StringComparison.Ordinal);
        Assert.Contains($"+{12 - shown}more", read.Letters, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(Paper.Letter)]
    [InlineData(Paper.A4)]
    [InlineData(Paper.Roll)]
    public void Render_LongestNames_EndInAnEllipsis(Paper paper)
    {
        using var read = new Readback(BenchTagsDocument.Render(SampleTags.Model(paper, [SampleTags.Wide("2E")])));

        Assert.Equal(100, SampleSheets.Longest.Length);
        Assert.Contains("…", read.Letters, StringComparison.Ordinal);
        Assert.Contains("ZwölfblättrigeWinterharte", read.Letters, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(Paper.Letter)]
    [InlineData(Paper.Roll)]
    public async Task Render_EightAtOnce_GivesTheSameBytesAsAlone(Paper paper)
    {
        var models = Enumerable.Range(1, 8)
            .Select(i => SampleTags.Model(paper, [.. Enumerable.Range(1, 5).Select(j => SampleTags.Bench($"{i}{(char)('A' + j)}", rows: i + j))]))
            .ToList();

        var together = await Task.WhenAll(models.Select(model => Task.Run(() => BenchTagsDocument.Render(model))));

        Assert.All(models.Zip(together), pair => Assert.Equal(BenchTagsDocument.Render(pair.First), pair.Second));
        Assert.Equal(8, together.Select(Convert.ToBase64String).Distinct().Count());
    }

    private static int CountOf(string part, string text) => text.Split(part).Length - 1;
}
