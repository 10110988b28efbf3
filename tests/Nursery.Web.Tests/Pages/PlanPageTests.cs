using AngleSharp.Dom;
using Bunit;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Nursery.Application.Plans;
using Nursery.Domain.People;
using Nursery.Domain.Runs;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Nursery.Web.Components.Pages.Plans;
using Xunit;

namespace Nursery.Web.Tests.Pages;

/// <summary>At 9:00 in Chicago on 2 March 2026; zones of 80, 70 and 60 °F.</summary>
public sealed class PlanPageTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    [Fact]
    public async Task Page_NothingComputedYet_SaysSoAndOnlyPlannersMayBegin()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var grower = await NurseryPages.OpenAsync(nursery, database, Role.HeadGrower);
        await using var manager = await NurseryPages.OpenAsync(nursery, database, Role.Manager);

        var page = grower.Render<PlanPage>();
        Assert.Contains("No proposal was computed yet", page.WaitForElement(".empty").TextContent, StringComparison.Ordinal);
        Assert.Equal("Compute a proposal", page.Find("button.first").TextContent);

        var read = manager.Render<PlanPage>();
        read.WaitForElement(".empty");
        Assert.Empty(read.FindAll("button"));
    }

    [Fact]
    public async Task Begin_ThenWorkerHasTime_ShowsTheProposalAndAcceptsTheChosenBatch()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.HeadGrower);
        var pepper = await nursery.PlanAsync(nursery.Pepper, trays: 8, inDays: 3);
        var lettuce = await nursery.PlanAsync(nursery.Lettuce, trays: 6, inDays: 5);
        var page = pages.Render<PlanPage>();
        page.WaitForElement("#plan-seconds").Change(1);
        NurseryPages.Button(page, "Compute a proposal").Click();
        page.WaitForAssertion(() => Assert.Contains("Waiting to begin", page.Find("[aria-label=Computing]").TextContent, StringComparison.Ordinal));

        await pages.Services.GetRequiredService<JobsAtOnce>().WorkAsync();
        NurseryPages.Look(page, nursery, () => Assert.NotEmpty(page.FindAll("[aria-label=Proposal]")));

        var words = Flat(page.Find("[aria-label=Proposal]"));
        Assert.Contains("2 batches that had no place get one.", words, StringComparison.Ordinal);
        Assert.Contains("heat of zones that are on", Flat(page.Find("[aria-label=Proposal] details.how-of")), StringComparison.Ordinal);
        Assert.Equal(2, page.FindAll(".scroll.tall tbody input[type=checkbox]").Count);
        Assert.Contains($"{pepper.Code}", page.Find(".time-line").TextContent, StringComparison.Ordinal);
        Assert.Equal(4, page.FindAll(".load-curves svg").Count);
        Assert.Contains("of 24 spaces", page.Find(".load-curves").TextContent, StringComparison.Ordinal);

        page.Find($"input[aria-label='Accept {lettuce.Code}']").Change(true);
        NurseryPages.Button(page, "Accept the chosen (1)").Click();
        page.WaitForAssertion(() => Assert.Contains("1 batch accepted", page.Find(".said").TextContent, StringComparison.Ordinal));
        page.WaitForAssertion(() => Assert.Contains("Accepted: 1 batch", page.Find("[aria-label=Proposal]").TextContent, StringComparison.Ordinal));
        Assert.DoesNotContain(page.FindAll("button"), button => button.TextContent.StartsWith("Accept", StringComparison.Ordinal));
        await using var rows = await nursery.DatabaseAsync();
        Assert.Equal(
            [lettuce.TraySetCode],
            await rows.Reservations.Where(row => row.SiteId == nursery.At.Site.Id)
                .Join(rows.TraySets, row => row.TraySetId, set => set.Id, (_, set) => set.Code).Distinct().ToListAsync());
    }

    [Fact]
    public async Task Accept_GroundMoved_SaysWhyAndDropPutsItAway()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.HeadGrower);
        var pepper = await nursery.PlanAsync(nursery.Pepper, trays: 8);
        await ProposeAsync(nursery);
        await nursery.SowAsync(pepper);
        var page = pages.Render<PlanPage>();
        page.WaitForElement("[aria-label=Proposal]");

        NurseryPages.Button(page, "Accept all").Click();
        page.WaitForAssertion(() => Assert.Contains(
            $"nothing was accepted. {pepper.Code} is sown", Flat(page.Find("[aria-label=Proposal] .wrong")), StringComparison.Ordinal));

        NurseryPages.Button(page, "Drop it").Click();
        page.WaitForAssertion(() => Assert.Contains("Today's plan stays as it is", page.Find(".said").TextContent, StringComparison.Ordinal));
        page.WaitForAssertion(() => Assert.Contains("Dropped proposal", page.Find("[aria-label=Proposal] h2").TextContent, StringComparison.Ordinal));
    }

    [Fact]
    public async Task Page_NotEnoughRoom_SaysWhatHasNoPlaceAndWhatHelps()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.Manager);
        for (var number = 0; number < 8; number++)
        {
            await nursery.PlanAsync(nursery.Pepper, trays: 10, inDays: 1);
        }

        await ProposeAsync(nursery);
        var page = pages.Render<PlanPage>();

        var without = Flat(page.WaitForElement("[aria-label=Proposal] .wrong"));
        Assert.Matches("\\d+ trays of \\d+ batch(es)? without a place", without);
        Assert.Contains("What helps, the cheapest first", without, StringComparison.Ordinal);
        Assert.NotEmpty(page.FindAll("[aria-label=Proposal] .wrong ol li"));
    }

    [Fact]
    public async Task Page_RunThatFailed_SaysWhy()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.HeadGrower);
        var run = await nursery.Get<StartPlan>().HandleAsync(new PlanRequest(Iterations: 1), nursery.HeadGrower);
        await using (var rows = await nursery.DatabaseAsync())
        {
            await rows.BackgroundRuns.Where(row => row.Id == new Domain.Id<BackgroundRun>(run.Id)).ExecuteUpdateAsync(row => row
                .SetProperty(run => run.State, RunState.Failed).SetProperty(run => run.Message, "the dog ate it"));
        }

        var page = pages.Render<PlanPage>();

        Assert.Contains("failed: the dog ate it", page.WaitForElement(".wrong").TextContent, StringComparison.Ordinal);
        Assert.NotNull(NurseryPages.Button(page, "Compute another proposal"));
    }

    [Fact]
    public async Task TimeLine_RowsAndPlanChosen_DrawsThem()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.HeadGrower);
        await nursery.PlanAsync(nursery.Pepper, trays: 8, inDays: 3);
        await ProposeAsync(nursery);
        var page = pages.Render<PlanPage>();
        page.WaitForElement(".time-line");
        Assert.NotEmpty(page.FindAll(".time-line .bar.heat"));
        Assert.NotEmpty(page.FindAll(".time-line .bar.warm"));
        var wide = Width(page);

        page.Find("#line-weeks").Change("4");
        page.WaitForAssertion(() => Assert.True(Width(page) > wide, "Fewer weeks across make it wider."));
        page.Find("#line-rows").Change("zones");
        page.WaitForAssertion(() => Assert.Empty(page.FindAll(".time-line .bar.warm")));
        Assert.Contains("Zone Z80", page.Find(".time-line").TextContent, StringComparison.Ordinal);
        page.Find("#line-plan").Change("1");
        page.WaitForAssertion(() => Assert.Contains("Nothing stands on a heat zone in today's plan", page.Markup, StringComparison.Ordinal));
    }

    [Fact]
    public async Task TimeLine_BatchChosen_SaysWhereItStandsAndWhereItsDaysComeFrom()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.HeadGrower);
        var pepper = await nursery.PlanAsync(nursery.Pepper, trays: 8, inDays: 3);
        await ProposeAsync(nursery);
        var page = pages.Render<PlanPage>();
        page.WaitForElement(".time-line");
        Assert.Equal("/api/v1/papers/plan-time-line.pdf?plan=proposal", page.Find("a[aria-label='Print the time line of the proposal']").GetAttribute("href"));

        page.Find(".time-line g.stay").Click();

        var where = page.WaitForElement($"[aria-label='Where {pepper.Code} stands']");
        Assert.Equal($"/batches/{pepper.Id}", where.QuerySelector("h3 a")!.GetAttribute("href"));
        Assert.Equal(2, where.QuerySelectorAll("ul li").Length);
        var how = Flat(where.QuerySelector("details.how-of")!);
        Assert.Contains("the sum of the daily progress reaches 1", how, StringComparison.Ordinal);
        Assert.Contains("progress a day at", how, StringComparison.Ordinal);
        Assert.Equal(2, page.FindAll(".time-line g.chosen").Count);

        page.Find("#line-batch").Change("NO-000-X");
        page.WaitForAssertion(() => Assert.Contains("stands nowhere in the proposal", page.Markup, StringComparison.Ordinal));
    }

    [Fact]
    public async Task Loads_OpenToTheFullestDayPlaceByPlaceAndWeekByWeek()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.Manager);
        await nursery.PlanAsync(nursery.Pepper, trays: 8, inDays: 3);
        await ProposeAsync(nursery);
        var page = pages.Render<PlanPage>();

        var heat = page.WaitForElement(".load-curves figcaption");

        Assert.Matches(@"Heat zones, spaces taken on \d+ \w+", Flat(heat));
        Assert.Matches(@"8 of \d+ spaces", Flat(heat.QuerySelector("details.how-of")!));
        Assert.Contains("8", heat.QuerySelectorAll("table.list tbody tr td.number:nth-child(2)").Select(cell => cell.TextContent));
    }

    [Fact]
    public async Task Page_PlanInForceOnly_IsDrawnAndPrinted()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.Staff);
        var pepper = await nursery.PlanAsync(nursery.Pepper, trays: 8);
        await nursery.ReserveAsync(pepper, "G1", 3, nursery.Today, nursery.Today.PlusDays(12));
        await nursery.SowAsync(pepper);
        var page = pages.Render<PlanPage>();

        Assert.Contains($"{pepper.Code} 3–10", page.WaitForElement(".time-line .bar.stands").ParentElement!.TextContent, StringComparison.Ordinal);
        Assert.Equal("/api/v1/papers/plan-time-line.pdf?plan=inForce", page.Find("a[aria-label='Print the time line of the plan in force']").GetAttribute("href"));
        Assert.Contains("Nothing all season on: Zone Z70", page.Markup, StringComparison.Ordinal);
        Assert.Empty(page.FindAll(".load-curves .today"));
    }

    private static double Width(IRenderedComponent<PlanPage> page) =>
        double.Parse(page.Find(".time-line svg").GetAttribute("width")!, System.Globalization.CultureInfo.InvariantCulture);

    private static async Task ProposeAsync(TestNursery nursery)
    {
        var run = await nursery.Get<StartPlan>().HandleAsync(new PlanRequest(Iterations: 200), nursery.HeadGrower);
        await nursery.Get<RunPlan>().HandleAsync(run.Id);
    }

    private static string Flat(IElement element) => System.Text.RegularExpressions.Regex.Replace(element.TextContent, @"\s+", " ");
}
