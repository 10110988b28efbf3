using Bunit;
using Nursery.Application.Germination;
using Nursery.Application.Rounds;
using Nursery.Domain.Ledger;
using Nursery.Domain.People;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Nursery.Web.Components.Pages.Germination;
using Xunit;

namespace Nursery.Web.Tests.Pages;

public sealed class GerminationPageTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    [Fact]
    public async Task Page_TwoCountedBatches_ShowsRateAndSpread()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.Manager);
        await CountedAsync(nursery, 0, 72);
        await CountedAsync(nursery, 0, 130);

        var page = pages.Render<GerminationPage>();

        // (72 + 130) / 288 = 70.14 %; the batches' own 50.00 % and 90.28 % lie 40.28 points apart, and of two values
        // the standard deviation with n − 1 (NIST/SEMATECH e-Handbook 1.3.5.6) is their distance ÷ √2 = 28.48.
        page.WaitForElement("table");
        var cells = page.FindAll("tbody td").Select(cell => cell.TextContent.Trim()).ToList();
        Assert.Equal(["Pepper", "2", "288", "202", "70.1 %", "± 28.5 points"], cells[..6]);
        Assert.Contains("70.1 % of 288 seeds counted in 2 batches", page.Find(".head").TextContent, StringComparison.Ordinal);

        page.Find("#to").Change("2026-03-01");
        page.WaitForAssertion(() => Assert.Contains("No counted batch fits this choice", page.Find(".empty").TextContent, StringComparison.Ordinal));
        page.Find("#to").Change("2026-03-02");
        page.WaitForElement("table");
        page.Find("#by").Change("Lot");
        page.WaitForAssertion(() => Assert.Contains(nursery.PepperLot.Code, page.Find("tbody").TextContent, StringComparison.Ordinal));
    }

    /// <summary>By hand: of 144 seeds 36 were up on day 6 and 108 on day 10: half of 108 is 54, at 18 a day one day after day 6: day 7.</summary>
    [Fact]
    public async Task Page_RowOpened_ShowsCurvesBatchesAndCounts()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.Manager);
        var first = await CountedAsync(nursery, 6, 36, 10, 108);
        var second = await CountedAsync(nursery, 8, 130);
        var page = pages.Render<GerminationPage>();

        page.WaitForElement("button.opens").Click();

        Assert.Equal("true", page.WaitForElement("button.opens").GetAttribute("aria-expanded"));
        var svg = page.Find("tr.opened svg");
        Assert.Contains("share of seeds up by day after sowing, 2 batches", svg.GetAttribute("aria-label"), StringComparison.Ordinal);
        Assert.Equal(2, page.FindAll("tr.opened polyline:not(.wide)").Count);
        var words = page.FindAll("tr.opened svg text").Select(text => text.TextContent).ToList();
        Assert.Superset(new HashSet<string> { "days after sowing", $"{first} 75 %", $"{second} 90 %", "label 80 %", "published minimum 55 %" }, words.ToHashSet());
        var batches = page.FindAll("tr.opened .opened-row tbody tr").Select(row => row.TextContent).ToList();
        Assert.Contains(batches, row => row.Contains(first, StringComparison.Ordinal) && row.Contains("7.0 days", StringComparison.Ordinal));
        Assert.Contains(batches, row => row.Contains(second, StringComparison.Ordinal) && row.Contains("by day 8, first count", StringComparison.Ordinal));
        Assert.Equal(3, page.FindAll("tr.opened details tbody tr").Count);

        // The chosen batch is lifted; choosing it again lets it go.
        page.FindAll("tr.opened button.link")[0].Click();
        page.WaitForAssertion(() => Assert.Single(page.FindAll("g.chosen")));
        Assert.Single(page.FindAll("g.faint"));
        page.FindAll("tr.opened button.link")[0].Click();
        page.WaitForAssertion(() => Assert.Empty(page.FindAll("g.chosen")));

        page.Find("button.opens").Click();
        page.WaitForAssertion(() => Assert.Empty(page.FindAll("tr.opened")));
    }

    [Fact]
    public async Task Page_Filters_GoIntoEveryFile()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.Manager);
        await CountedAsync(nursery, 0, 72);
        var page = pages.Render<GerminationPage>();
        page.WaitForElement("table");

        // Each step in the page's own turn: what is drawn meanwhile would take the found element away.
        await page.InvokeAsync(() => page.Find("#by").Change("Lot"));
        page.WaitForAssertion(() => Assert.Contains(nursery.PepperLot.Code, page.Find("tbody").TextContent, StringComparison.Ordinal));
        await page.InvokeAsync(() => page.Find("#to").Change("2026-03-31"));
        await page.InvokeAsync(() => page.Find("#crop").Change("PE"));
        await page.InvokeAsync(() => page.Find("#below").Change("90.5"));
        await page.InvokeAsync(() => page.FindAll("button.sort")[4].Click());
        page.WaitForElement("th[aria-sort=descending]");
        await page.InvokeAsync(() => page.Find("button.opens").Click());

        const string choice = "by=lot&to=2026-04-01&crop=PE&below=0.905&order=fraction&descending=true";
        page.WaitForAssertion(() => Assert.Equal(
            [
                $"/api/v1/papers/germination.pdf?{choice}&open={nursery.PepperLot.Code}", $"/api/v1/germination.csv?{choice}",
                $"/api/v1/germination.csv?{choice}&lines=batches", $"/api/v1/germination.csv?{choice}&lines=counts",
            ],
            page.FindAll(".actions a").Select(link => link.GetAttribute("href"))));
        await page.InvokeAsync(() => page.Find("#below").Change("20"));
        page.WaitForElement(".empty button");
        await page.InvokeAsync(() => page.Find(".empty button").Click());
        page.WaitForElement("table");
        Assert.Contains("/api/v1/ledger.csv", page.FindAll("section a").Select(link => link.GetAttribute("href")));
    }

    [Fact]
    public void Rows_MoreThanAPage_AreTurned()
    {
        using var context = new BunitContext();
        var rows = Enumerable.Range(1, 120).Select(number => new GerminationRow(
            new GerminationItem($"K{number}", $"Row {number}", 1, 10, 5, 0.5m, null, null, null, null, null, null, null, 0), [SampleBatch()])).ToList();

        var table = context.Render<RateTable>(parameters => parameters
            .Add(one => one.Rows, rows).Add(one => one.Choice, new GerminationChoice()).Add(one => one.Open, null));

        Assert.Equal(50, table.FindAll("tbody tr").Count);
        table.FindAll(".actions button")[1].Click();
        table.FindAll(".actions button")[1].Click();
        Assert.Equal("101–120 of 120", table.Find(".actions span").TextContent);
        Assert.True(table.FindAll(".actions button")[1].HasAttribute("disabled"));
        Assert.Equal("Row 101", table.Find("button.opens").TextContent);
    }

    [Fact]
    public async Task Page_NothingCounted_SaysWhenARateAppears()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.Manager);

        var page = pages.Render<GerminationPage>();

        Assert.Contains("first count", page.WaitForElement(".empty").TextContent, StringComparison.Ordinal);
        Assert.Contains("standard deviation", page.Find("details").TextContent, StringComparison.Ordinal);
    }

    /// <summary>Two trays of 72 cells, a seed each, sown, and counted whole once or twice some days later; gives the batch's code.</summary>
    private static async Task<string> CountedAsync(TestNursery nursery, int day, int seedlings, int? laterDay = null, int? more = null)
    {
        var batch = await nursery.PlanAsync(nursery.Pepper);
        await nursery.SowAsync(batch);
        nursery.Clock.Advance(TimeSpan.FromDays(day));
        await nursery.RecordAsync(new PlantsCounted(batch.Id, CountWhat.Seedlings, seedlings, null, null, false));
        if (laterDay is { } later && more is { } count)
        {
            nursery.Clock.Advance(TimeSpan.FromDays(later - day));
            await nursery.RecordAsync(new PlantsCounted(batch.Id, CountWhat.Seedlings, count, null, null, false));
        }

        return batch.Code;
    }

    private static GerminatedBatch SampleBatch() => new()
    {
        Id = Guid.Empty,
        Code = "PE-001-X",
        CropCode = "PE",
        CropName = "Pepper",
        VarietyCode = "PE-1",
        VarietyName = "One",
        LotCode = null,
        LabelFraction = null,
        HouseCode = null,
        HouseName = null,
        SownOn = new NodaTime.LocalDate(2026, 3, 2),
        Seeds = 10,
        Emerged = 5,
        Counts = [],
    };
}
