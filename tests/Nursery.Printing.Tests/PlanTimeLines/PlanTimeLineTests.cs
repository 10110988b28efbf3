using Nursery.Printing.PlanTimeLines;
using Nursery.Testing.Papers;
using Xunit;
using static Nursery.Printing.Tests.Sheets.SampleSheets;

namespace Nursery.Printing.Tests.PlanTimeLines;

/// <summary>Read back by a reader that shares no code with the writer.</summary>
public class PlanTimeLineTests
{
    [Fact]
    public void Render_WeeksOfASeason_StandSideBySideEightAtMost()
    {
        using var read = new Readback(PlanTimeLineDocument.Render(SampleTimeLines.Model(Paper.Letter, 30)));

        Assert.Contains("23Nov2026", Readback.LettersOf(read.Pages[0]), StringComparison.Ordinal);
        Assert.Contains("11Jan2027", Readback.LettersOf(read.Pages[0]), StringComparison.Ordinal);
        Assert.DoesNotContain("18Jan2027", Readback.LettersOf(read.Pages[0]), StringComparison.Ordinal);
        Assert.Contains(read.Pages, page => Readback.LettersOf(page).Contains("heatzones", StringComparison.Ordinal) && Readback.LettersOf(page).Contains("18Jan2027", StringComparison.Ordinal));
        Assert.All(read.Pages, page => Assert.True(page.Width > page.Height));
    }

    [Fact]
    public void Render_BarOverTwoPagesOfWeeks_IsNamedOnBoth()
    {
        var model = SampleTimeLines.Model(Paper.A4, 0);
        var section = model.Sections[1];
        var row = section.Rows[0] with { Bars = [new TimeLineBar(LongestCode, "1–12", "Pepper", 50, 70, false)] };
        using var read = new Readback(PlanTimeLineDocument.Render(model with { Sections = [section with { Rows = [row] }] }));

        Assert.Equal(2, read.Pages.Count);
        Assert.Equal(2, PaperReading.Times(LongestCode + "1–12", read.Letters));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(27)]
    [InlineData(55)]
    public void Render_OneDayAnywhere_HasItsWordsBesideItOnThePage(int day)
    {
        var model = SampleTimeLines.Model(Paper.Letter, 0, weeks: 8);
        var bar = new TimeLineBar(LongestCode, "1–12", "Pepper", day, day + 1, true);
        using var read = PaperReading.Holds(
            PlanTimeLineDocument.Render(model with { Sections = [model.Sections[0] with { Rows = [model.Sections[0].Rows[0] with { Bars = [bar] }] }] }), PaperStock.Letter);

        Assert.Contains(LongestCode + "1–12", read.Letters, StringComparison.Ordinal);
    }

    /// <summary>In black and white: no color, and no gray that a copier loses.</summary>
    [Fact]
    public void Render_Anything_IsBlackOnWhite()
    {
        using var read = new Readback(PlanTimeLineDocument.Render(SampleTimeLines.Model(Paper.Letter, 60)));

        Assert.All(read.Pages.SelectMany(page => page.Letters), letter => Assert.Equal((0.0, 0.0, 0.0), letter.Color.ToRGBValues()));
    }

    [Fact]
    public void Render_RowHigherThanAPage_GoesOnAsContinuedAndLoadsStandAtTheFoot()
    {
        using var read = new Readback(PlanTimeLineDocument.Render(SampleTimeLines.Model(Paper.Letter, 3000)));

        Assert.Contains("ZoneZ0,continued", read.Letters, StringComparison.Ordinal);
        Assert.Equal(19, PaperReading.Times("212of240", read.Letters));
        Assert.Equal(5, PaperReading.Times("252of240:over", read.Letters));
        Assert.Equal(6, PaperReading.Times("Spacestakenonthefullestdayofeachweek", read.Letters));
    }
}
