using System.Globalization;
using Nursery.Printing.BenchTags;
using Nursery.Printing.Drawing;
using Xunit;

namespace Nursery.Printing.Tests.BenchTags;

public class BenchTagsDocumentTests
{
    private const double _mm = 72 / 25.4;

    public static TheoryData<Paper, double, double, double> Papers => new()
    {
        // Letter: ANSI/ASME Y14.1 size A, 8.5 × 11 in. A4: ISO 216, 210 × 297 mm. The roll's 2 × 4 in: common practice, no source.
        { Paper.Letter, 8.5 * 72, 11 * 72, 10 * _mm },
        { Paper.A4, 210 * _mm, 297 * _mm, 10 * _mm },
        { Paper.Roll, 4 * 72, 2 * 72, 2.5 * _mm },
    };

    [Theory]
    [MemberData(nameof(Papers))]
    public void Render_AnyTags_StaysInsideMarginsAndOverlapsNothing(Paper paper, double width, double height, double margin)
    {
        BenchTag[] tags =
        [
            SampleTags.Bench("2A"), SampleTags.Bench("2B", rows: 0, zones: 0), SampleTags.Bench("2C", rows: 40, zones: 5),
            SampleTags.Shared("2D"), SampleTags.Wide("2E"), SampleTags.Wide(SampleTags.Longest), SampleTags.Bench("2F", rows: 7, zones: 2),
            SampleTags.Bench("2G", zones: 20),
        ];
        using var read = new Readback(BenchTagsDocument.Render(SampleTags.Model(paper, tags)));

        Assert.All(read.Pages, page =>
        {
            Assert.Equal(width, page.Width, 0.5);
            Assert.Equal(height, page.Height, 0.5);
            Assert.Empty(Readback.Outside(page, margin));
            Assert.Empty(Readback.Overlaps(page));
        });
    }

    [Theory]
    [MemberData(nameof(Papers))]
    public void Render_AnyTags_NamesSiteTimePageAndNoticeOnEveryPage(Paper paper, double width, double height, double margin)
    {
        Assert.True(margin < width && margin < height);
        using var read = new Readback(BenchTagsDocument.Render(
            SampleTags.Model(paper, [SampleTags.Bench("1A"), SampleTags.Bench("1B", rows: 40), SampleTags.Bench("1C")])));

        Assert.True(read.Pages.Count > 1);
        Assert.All(read.Pages, page =>
        {
            var letters = Readback.LettersOf(page);
            Assert.Contains("KestrelBeckNursery", letters, StringComparison.Ordinal);
            Assert.Contains("Printed24November2026,14:05", letters, StringComparison.Ordinal);
            Assert.Contains("Inventeddemodata", letters, StringComparison.Ordinal);
            Assert.Contains($"Page{page.Number}of{read.Pages.Count}", letters, StringComparison.Ordinal);
        });
        Assert.Equal("Bench tags – Kestrel Beck Nursery", read.Title);
    }

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
    [InlineData(Paper.Letter, 1)]
    [InlineData(Paper.A4, 1)]
    [InlineData(Paper.Roll, 1)]
    [InlineData(Paper.Letter, 300)]
    [InlineData(Paper.A4, 300)]
    [InlineData(Paper.Roll, 300)]
    public void Render_ManyBenches_PrintsEachOnce(Paper paper, int count)
    {
        var tags = Enumerable.Range(1, count).Select(i => SampleTags.Bench($"X{i.ToString("000", CultureInfo.InvariantCulture)}Y", rows: 1 + i % 6)).ToList();
        using var read = new Readback(BenchTagsDocument.Render(SampleTags.Model(paper, tags)));

        // The head and the caption of the QR code; the bench's name, zone and lot carry the code too.
        Assert.All(tags, tag => Assert.Single(read.Pages, page =>
            CountOf(tag.BenchCode, Readback.LettersOf(page).Replace(tag.BenchCode + "-", "", StringComparison.Ordinal)) >= 2));
    }

    [Theory]
    [MemberData(nameof(Papers))]
    public void Render_NoBench_PrintsOnePageThatSaysSo(Paper paper, double width, double height, double margin)
    {
        using var read = new Readback(BenchTagsDocument.Render(SampleTags.Model(paper, [])));

        var page = Assert.Single(read.Pages);
        Assert.Equal((width, height), (page.Width, page.Height), new Tolerance(0.5));
        Assert.Contains("Nobenchtoprintatagfor.", read.Letters, StringComparison.Ordinal);
        Assert.Contains("Page1of1", read.Letters, StringComparison.Ordinal);
        Assert.Empty(Readback.Outside(page, margin));
        Assert.Empty(Readback.Overlaps(page));
    }

    [Theory]
    [InlineData(Paper.Letter)]
    [InlineData(Paper.A4)]
    [InlineData(Paper.Roll)]
    public void Render_LongestNames_EndInAnEllipsis(Paper paper)
    {
        using var read = new Readback(BenchTagsDocument.Render(SampleTags.Model(paper, [SampleTags.Wide("2E")])));

        Assert.Equal(60, SampleTags.Longest.Length);
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

    private sealed class Tolerance(double slack) : IEqualityComparer<(double Width, double Height)>
    {
        public bool Equals((double Width, double Height) x, (double Width, double Height) y) =>
            Math.Abs(x.Width - y.Width) < slack && Math.Abs(x.Height - y.Height) < slack;

        public int GetHashCode((double Width, double Height) obj) => 0;
    }
}
