using Nursery.Printing.BenchPlans;
using Nursery.Printing.CarryLists;
using Nursery.Printing.MixSheets;
using Nursery.Printing.PatchSheets;
using Nursery.Printing.PickLists;
using Nursery.Printing.RoundSheets;
using Nursery.Testing.Papers;
using UglyToad.PdfPig.Content;
using Xunit;

namespace Nursery.Printing.Tests.Sheets;

/// <summary>What holds for every sheet: read back by a reader that shares no code with the writer.</summary>
public class SheetTests
{
    [Theory]
    [InlineData(Paper.Letter)]
    [InlineData(Paper.A4)]
    public void Render_RoundOfAThousandTasks_RepeatsItsNumberAndTitles(Paper paper)
    {
        using var read = new Readback(RoundSheetDocument.Render(SampleSheets.Round(paper, 1000)));

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
}
