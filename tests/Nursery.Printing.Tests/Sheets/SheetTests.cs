using Nursery.Printing.BenchPlans;
using Nursery.Printing.CarryLists;
using Nursery.Printing.PatchSheets;
using Nursery.Printing.PickLists;
using Nursery.Printing.RoundSheets;
using UglyToad.PdfPig.Content;
using Xunit;

namespace Nursery.Printing.Tests.Sheets;

/// <summary>What holds for every sheet: read back by a reader that shares no code with the writer.</summary>
public class SheetTests
{
    private const double _mm = 72 / 25.4;

    private static readonly Dictionary<string, Func<Paper, byte[]>> _papers = new()
    {
        ["round, none"] = paper => RoundSheetDocument.Render(SampleSheets.Round(paper, 0)),
        ["round, one"] = paper => RoundSheetDocument.Render(SampleSheets.Round(paper, 1)),
        ["round, many"] = paper => RoundSheetDocument.Render(SampleSheets.Round(paper, 60)),
        ["round, wide"] = paper => RoundSheetDocument.Render(SampleSheets.Round(paper, 20, wide: true)),
        ["carry, none"] = paper => CarryListDocument.Render(SampleSheets.Carry(paper, 0)),
        ["carry, one"] = paper => CarryListDocument.Render(SampleSheets.Carry(paper, 1)),
        ["carry, many"] = paper => CarryListDocument.Render(SampleSheets.Carry(paper, 60)),
        ["carry, wide"] = paper => CarryListDocument.Render(SampleSheets.Carry(paper, 20, wide: true)),
        ["patch, none"] = paper => PatchSheetDocument.Render(SampleSheets.Patches(paper, 0)),
        ["patch, one"] = paper => PatchSheetDocument.Render(SampleSheets.Patches(paper, 1, lines: 1)),
        ["patch, many"] = paper => PatchSheetDocument.Render(SampleSheets.Patches(paper, 5, lines: 14)),
        ["patch, wide"] = paper => PatchSheetDocument.Render(SampleSheets.Patches(paper, 2, lines: 8, wide: true)),
        ["pick, none"] = paper => PickListDocument.Render(SampleSheets.Picks(paper, 0)),
        ["pick, one"] = paper => PickListDocument.Render(SampleSheets.Picks(paper, 1, lines: 1)),
        ["pick, many"] = paper => PickListDocument.Render(SampleSheets.Picks(paper, 3, lines: 20)),
        ["pick, wide"] = paper => PickListDocument.Render(SampleSheets.Picks(paper, 2, lines: 8, wide: true)),
        ["pick, no line"] = paper => PickListDocument.Render(SampleSheets.Picks(paper, 1, lines: 0)),
        ["plan, none"] = paper => BenchPlanDocument.Render(SampleSheets.Plan(paper, houses: 0)),
        ["plan, no bench"] = paper => BenchPlanDocument.Render(SampleSheets.Plan(paper, benches: 0)),
        ["plan"] = paper => BenchPlanDocument.Render(SampleSheets.Plan(paper, houses: 2)),
        ["plan, wide"] = paper => BenchPlanDocument.Render(SampleSheets.Plan(paper, benches: 12, wide: true)),
        ["plan, full"] = paper => BenchPlanDocument.Render(SampleSheets.Plan(paper, benches: 60)),
    };

    public static TheoryData<string, Paper> All
    {
        get
        {
            var rows = new TheoryData<string, Paper>();
            foreach (var name in _papers.Keys)
            {
                rows.Add(name, Paper.Letter);
                rows.Add(name, Paper.A4);
            }

            return rows;
        }
    }

    [Theory]
    [MemberData(nameof(All))]
    public void Render_AnySheet_StaysInsideMarginsAndOverlapsNothing(string name, Paper paper)
    {
        using var read = new Readback(_papers[name](paper));

        // Letter: ANSI/ASME Y14.1 size A, 8.5 × 11 in. A4: ISO 216, 210 × 297 mm. A plan may lie across.
        var (shorter, longer) = paper == Paper.Letter ? (8.5 * 72, 11.0 * 72) : (210 * _mm, 297 * _mm);
        Assert.All(read.Pages, page =>
        {
            Assert.Equal(shorter, Math.Min(page.Width, page.Height), 0.5);
            Assert.Equal(longer, Math.Max(page.Width, page.Height), 0.5);
            Assert.Empty(Readback.Outside(page, 10 * _mm));
            Assert.Empty(Readback.Overlaps(page));
        });
    }

    [Theory]
    [MemberData(nameof(All))]
    public void Render_AnySheet_NamesSiteTimePageAndNoticeOnEveryPage(string name, Paper paper)
    {
        using var read = new Readback(_papers[name](paper));

        Assert.All(read.Pages, page =>
        {
            var letters = Readback.LettersOf(page);
            Assert.Contains("KestrelBeckNursery", letters, StringComparison.Ordinal);
            Assert.Contains("Printed24November2026,14:05", letters, StringComparison.Ordinal);
            Assert.Contains("Inventeddemodata", letters, StringComparison.Ordinal);
            Assert.Contains($"Page{page.Number}of{read.Pages.Count}", letters, StringComparison.Ordinal);
        });
    }

    [Theory]
    [MemberData(nameof(All))]
    public void Render_AnySheet_DrawsNoLineOutsideThePaper(string name, Paper paper)
    {
        using var read = new Readback(_papers[name](paper));

        Assert.All(read.Pages, page => Assert.Empty(LinesOutside(page)));
    }

    [Theory]
    [InlineData(Paper.Letter)]
    [InlineData(Paper.A4)]
    public void Render_RoundOfAThousandTasks_NumbersEachOnceUnderItsBench(Paper paper)
    {
        using var read = new Readback(RoundSheetDocument.Render(SampleSheets.Round(paper, 1000)));

        var letters = read.Letters;
        Assert.All(Enumerable.Range(0, 1000), i => Assert.Equal(2, letters.Split(SampleSheets.Code(i)).Length));
        Assert.All(read.Pages, page => Assert.Contains("sheet412", Readback.LettersOf(page), StringComparison.Ordinal));
        Assert.All(read.Pages, page => Assert.Contains("linedonenotyettask", Readback.LettersOf(page), StringComparison.Ordinal));
    }

    [Fact]
    public void Render_StopOverAPage_SaysContinuedAndNeverEndsOnAHeading()
    {
        using var read = new Readback(RoundSheetDocument.Render(SampleSheets.Round(Paper.A4, 60)));

        Assert.Contains(read.Pages, page => Readback.LettersOf(page).Contains("heat,continued", StringComparison.Ordinal));
        Assert.All(read.Pages, page => Assert.DoesNotContain("time,noteKestrel", Readback.LettersOf(page), StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(Paper.Letter)]
    [InlineData(Paper.A4)]
    public void Render_PickLine_KeepsItsBatchesOnOnePage(Paper paper)
    {
        using var read = new Readback(PickListDocument.Render(SampleSheets.Picks(paper, 2, lines: 20)));

        Assert.All(Enumerable.Range(0, 40), i => Assert.Single(read.Pages, page =>
        {
            var letters = Readback.LettersOf(page);
            var codes = SampleSheets.Pick(i).Places.Select(place => place.Code).ToList();
            var here = codes.Count(code => letters.Contains(code, StringComparison.Ordinal));
            Assert.True(here == 0 || here == codes.Count, $"line {i}: {here} of {codes.Count} on page {page.Number}");
            return here > 0;
        }));
    }

    [Fact]
    public void Render_PickList_GivesEachOrderPagesAndSignaturesOfItsOwn()
    {
        using var read = new Readback(PickListDocument.Render(SampleSheets.Picks(Paper.Letter, 3)));

        Assert.Equal(3, read.Pages.Count);
        for (var order = 0; order < 3; order++)
        {
            var letters = Readback.LettersOf(read.Pages[order]);
            Assert.Contains($"Order{1001 + order}·UpperTerraceGrowers", letters, StringComparison.Ordinal);
            Assert.Contains("pickedby,date", letters, StringComparison.Ordinal);
            Assert.Contains("instead,onlyifshort:", letters, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Render_BenchPlan_IsToScaleAndListsEveryRun()
    {
        var model = SampleSheets.Plan(Paper.Letter);
        using var read = new Readback(BenchPlanDocument.Render(model));

        var page = Assert.Single(read.Pages);
        var letters = Readback.LettersOf(page);
        Assert.All(model.Houses[0].Benches, bench => Assert.Contains(bench.Code, letters, StringComparison.Ordinal));
        Assert.All(
            model.Houses[0].Benches.SelectMany(bench => bench.Trays), trays => Assert.Contains(trays.Code, letters, StringComparison.Ordinal));
        Assert.Contains("Z0180°F", letters, StringComparison.Ordinal);

        // The house is 24 m by 9 m, a bench 10 m by 1.65 m: the drawing must have boxes of those shapes at one scale.
        var boxes = page.Paths.Select(path => path.GetBoundingRectangle()).OfType<UglyToad.PdfPig.Core.PdfRectangle>().ToList();
        var house = boxes.Where(box => box.Height > 0 && Math.Abs(box.Width / box.Height - 24.0 / 9) < 0.01).MaxBy(box => box.Width);
        var scale = house.Width / 2400;
        Assert.True(scale > 0.2, $"{scale} points a cm");
        Assert.Equal(6, boxes.Count(box => Math.Abs(box.Width - 1000 * scale) < 0.2 && Math.Abs(box.Height - 165 * scale) < 0.2));
    }

    private static IEnumerable<string> LinesOutside(Page page) =>
        from path in page.Paths
        where path.IsStroked || path.IsFilled
        let box = path.GetBoundingRectangle()
        where box is not null
        where box.Value.Left < -0.1 || box.Value.Bottom < -0.1 || box.Value.Right > page.Width + 0.1 || box.Value.Top > page.Height + 0.1
        select $"page {page.Number}: {box}";
}
