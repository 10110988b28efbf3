using Bunit;
using Microsoft.AspNetCore.Components;
using Microsoft.Extensions.DependencyInjection;
using Nursery.Application;
using Nursery.Application.Batches;
using Nursery.Application.Orders;
using Nursery.Domain.Ledger;
using Nursery.Domain.People;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Nursery.Web.Components.Pages.Sowing;
using Xunit;

namespace Nursery.Web.Tests.Pages;

public sealed class SowingPageTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    [Fact]
    public async Task Page_ThisWeekWithALateOne_SaysWhatToTakeAndHowLate()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.Staff);
        var late = await nursery.PlanAsync(nursery.Pepper, trays: 2, seeds: 2);
        nursery.Clock.Advance(TimeSpan.FromDays(8));
        await nursery.PlanAsync(nursery.Lettuce, trays: 1, inDays: 1);

        var page = pages.Render<SowingPage>();

        page.WaitForElement("table");
        Assert.Contains("2 batches, 3 trays, 360 seeds to sow", page.Find(".head").TextContent, StringComparison.Ordinal);
        var first = page.Find("section[role], section").TextContent;
        Assert.Contains("Late, from days before", first, StringComparison.Ordinal);
        Assert.Contains(late.Code, first, StringComparison.Ordinal);
        Assert.Contains("8 days late", first, StringComparison.Ordinal);
        Assert.Contains("288", first, StringComparison.Ordinal);
        Assert.Contains("no place yet", first, StringComparison.Ordinal);
        Assert.Equal(
            "/api/v1/papers/sowing-sheet.pdf?from=2026-03-09&to=2026-03-15",
            page.FindAll("a").Single(link => link.TextContent == "Print the sowing sheet").GetAttribute("href"));
        Assert.Equal(
            "/api/v1/papers/mix-sheet.pdf?from=2026-03-09&to=2026-03-15",
            page.FindAll("a").Single(link => link.TextContent == "Print the mix sheet").GetAttribute("href"));
    }

    /// <summary>100 peppers of 57 days' notice: short by chance, no time to resow; another way is one tap, and the page says what follows.</summary>
    [Fact]
    public async Task Page_BatchForAnOrder_ShowsWaysRiskMixAndTakesTheChosenOne()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.HeadGrower);
        await nursery.ImportAsync(FormattableString.Invariant($"S-1,Green Acre,{nursery.Pepper.Code},100,{nursery.Today.PlusDays(57):uuuu-MM-dd}"));
        var line = (await nursery.Get<ListOrderLines>().HandleAsync(new Paging(), nursery.HeadGrower)).Items.Single();
        var batch = await nursery.Get<PlanBatch>().HandleAsync(
            new PlanBatchRequest(nursery.Pepper.Code, nursery.PepperLot.Code, 2, 72, 1, nursery.Today, [new PlannedAllocation(line.Id, 100)]), nursery.HeadGrower);
        await nursery.ReserveAsync(batch, "G1", null, nursery.Today, nursery.Today.PlusDays(25));

        var page = pages.Render<SowingPage>();
        page.WaitForElement("table");

        // 144 × 43 mL × 1.1 × 1.05 = 7.15 L.
        Assert.Contains("7.2 L", page.Find(".mix").TextContent, StringComparison.Ordinal);
        Assert.Matches("(59|60) %", page.Find("table.sowings tbody tr td:last-child").TextContent);
        var notes = page.Find("tr.notes").TextContent;
        Assert.Contains("less than the 95 % asked for", notes, StringComparison.Ordinal);
        Assert.Contains("could not be known in time", notes, StringComparison.Ordinal);

        // 72 seeds at 20 a thousand, the tray at 5, heat at 0.05 a day.
        var tray = 1.44 + 5 + (0.05 * TestCrops.Pepper().PlannedHeatDays);
        Assert.Contains(FormattableString.Invariant($"One tray more as insurance costs USD {tray:0.00} "), notes, StringComparison.Ordinal);
        Assert.Contains(page.FindAll("tr.notes .how-of summary"), summary => summary.TextContent == "how?");
        Assert.Contains("lift with the legs", page.Find(".caution").TextContent, StringComparison.Ordinal);

        page.FindAll("button").Single(button => button.TextContent.Trim() == "All ways").Click();
        page.WaitForAssertion(() => Assert.Equal(9, page.FindAll(".ways > table > tbody > tr").Count));
        var ways = page.FindAll(".ways > table > tbody > tr").Select(row => row.TextContent).ToList();
        Assert.Contains(ways, way => way.Contains("1 seed a cell and a patch tray", StringComparison.Ordinal));
        Assert.Contains(ways, way => way.Contains("rule of thumb, 2 a cell", StringComparison.Ordinal));
        Assert.Single(page.FindAll(".ways tr.best"));
        page.FindAll(".ways > table > tbody > tr").Single(row => row.TextContent.Contains("2 seeds a cell", StringComparison.Ordinal)).QuerySelector("button")!.Click();

        page.WaitForAssertion(() => Assert.Contains(
            "2 seeds a cell instead of 1: 288 seeds to take", page.Find("[role=status]").TextContent, StringComparison.Ordinal));
        Assert.Contains("2 a cell", page.Find("table.sowings").TextContent, StringComparison.Ordinal);
        Assert.DoesNotContain("less than the 95 % asked for", page.Markup, StringComparison.Ordinal);
        var story = (await nursery.Get<ShowBatch>().HandleAsync(batch.Id, nursery.HeadGrower)).Story;
        Assert.Contains(story, entry => entry.Value is BatchReplanned { SeedsPerCell: 2 });
    }

    [Fact]
    public async Task Ways_WithoutTheRightToPlan_AreShownButNotChosen()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.Staff);
        await nursery.ImportAsync(FormattableString.Invariant($"S-2,Green Acre,{nursery.Pepper.Code},100,{nursery.Today.PlusDays(70):uuuu-MM-dd}"));
        await nursery.Get<PlanFromOrders>().HandleAsync(new PlanFromOrdersRequest(null), nursery.HeadGrower);
        var batch = (await nursery.Get<ListBatches>().HandleAsync(new Paging(), nursery.Staff)).Items.Single();

        var ways = pages.Render<SowingWays>(parameters => parameters.Add(panel => panel.BatchId, batch.Id));

        ways.WaitForElement("tbody tr");
        Assert.Empty(ways.FindAll("button"));
        var unknown = pages.Render<SowingWays>(parameters => parameters.Add(panel => panel.BatchId, Guid.Empty));
        unknown.WaitForAssertion(() => Assert.NotEmpty(unknown.FindAll(".wrong")));
    }

    [Fact]
    public async Task Page_AnotherWeek_IsEmptyAndLeadsBack()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.Manager);
        await nursery.PlanAsync(nursery.Pepper);
        pages.Services.GetRequiredService<NavigationManager>().NavigateTo("/sowing?from=2026-03-09");

        var page = pages.Render<SowingPage>();

        Assert.Contains("Nothing is to be sown", page.WaitForElement(".empty").TextContent, StringComparison.Ordinal);
        Assert.NotNull(page.Find("a[href='/sowing']"));
        Assert.NotNull(page.Find("a[href='/sowing?from=2026-03-02']"));
    }
}
