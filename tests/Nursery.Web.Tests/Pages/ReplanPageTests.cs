using AngleSharp.Dom;
using Bunit;
using Microsoft.Extensions.DependencyInjection;
using Nursery.Application;
using Nursery.Application.Outages;
using Nursery.Application.Plans;
using Nursery.Domain.People;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Nursery.Web.Components.Pages.Plans;
using Xunit;

namespace Nursery.Web.Tests.Pages;

/// <summary>Something happens, or is tried out: on Monday, 2 March 2026; zones of 80, 70 and 60 °F.</summary>
public sealed class ReplanPageTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    [Fact]
    public async Task SomethingHappened_BenchOutOfUse_SaysHowFewChangeAndIsAccepted()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.HeadGrower);
        var sown = await nursery.PlanAsync(nursery.Pepper, trays: 4);
        await nursery.ReserveAsync(sown, "G1", 1, nursery.Today, nursery.Today.PlusDays(9));
        await nursery.SowAsync(sown);
        var page = Begun(pages, "Something happened");

        await page.Find("#change-kind").ChangeAsync("ZoneOut");
        await page.Find("#change-code").ChangeAsync("Z80");
        await page.Find("#change-why").ChangeAsync("thermostat broke");
        await NurseryPages.Button(page, "Add").ClickAsync(new());
        page.WaitForAssertion(() => Assert.Contains("Heat zone Z80 cannot be used from 2 March 2026 until 9 March 2026: thermostat broke.", Flat(page.Find("ul.changes")), StringComparison.Ordinal));
        await page.Find("#plan-seconds").ChangeAsync("1");
        NurseryPages.Button(page, "Compute what changes").Click();
        page.WaitForElement("[aria-label=Computing]");
        await pages.Services.GetRequiredService<JobsAtOnce>().WorkAsync();
        NurseryPages.Look(page, nursery, () => Assert.NotEmpty(page.FindAll("[aria-label=Proposal]")));

        var words = Flat(page.Find("[aria-label=Proposal]"));
        Assert.Contains("What happened: Heat zone Z80 cannot be used", words, StringComparison.Ordinal);
        Assert.Contains("0 of 0 batches not sown yet change.", words, StringComparison.Ordinal);
        Assert.Contains(sown.Code, words, StringComparison.Ordinal);
        Assert.Contains(page.FindAll(".time-line .out-of-use"), area => area.GetAttribute("width") is not "0");

        NurseryPages.Button(page, "Accept all").Click();
        page.WaitForAssertion(() => Assert.Contains("accepted", page.Find(".said").TextContent, StringComparison.Ordinal));
        Assert.Equal("Z80", Assert.Single((await nursery.Get<ListOutages>().HandleAsync(new Paging(), nursery.Staff)).Items).ZoneCode);
    }

    [Fact]
    public async Task SomethingHappened_Nothing_SaysThatTodaysPlanHolds()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.HeadGrower);
        var run = await nursery.Get<StartPlan>().HandleAsync(new PlanRequest(Iterations: 0, Aim: PlanAim.Keep), nursery.HeadGrower);
        await nursery.Get<RunPlan>().HandleAsync(run.Id);

        Assert.Contains("Today's plan holds as it is.", Flat(pages.Render<PlanPage>().WaitForElement("[aria-label=Proposal]")), StringComparison.Ordinal);
    }

    [Fact]
    public async Task TryOut_SeveralChanges_IsComparedMarkedAndCannotBeAccepted()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.HeadGrower);
        await nursery.PlanAsync(nursery.Pepper, trays: 8, inDays: 3);
        var page = Begun(pages, "Try something out");
        Assert.True(page.FindAll("button").Single(button => button.TextContent == "Try it out").HasAttribute("disabled"));

        await page.Find("#change-kind").ChangeAsync("SpacesRented");
        await NurseryPages.Button(page, "Add").ClickAsync(new());
        await page.Find("#change-kind").ChangeAsync("OrderAdded");
        await NurseryPages.Button(page, "Add").ClickAsync(new());
        page.WaitForAssertion(() => Assert.Contains("Choose which one first.", page.Find("[role=alert]").TextContent, StringComparison.Ordinal));
        await page.Find("#change-code").ChangeAsync(nursery.Lettuce.Code);
        await page.Find("#change-plants").ChangeAsync("100");
        await page.Find("#change-from").ChangeAsync("2026-05-20");
        await NurseryPages.Button(page, "Add").ClickAsync(new());
        page.WaitForAssertion(() => Assert.Equal(2, page.FindAll("ul.changes li").Count));
        await page.Find("#change-kind").ChangeAsync("MoreHardening");
        await NurseryPages.Button(page, "Add").ClickAsync(new());
        page.WaitForAssertion(() => Assert.Equal(3, page.FindAll("ul.changes li").Count));
        await page.Find("ul.changes li:last-child button").ClickAsync(new());
        page.WaitForAssertion(() => Assert.Equal(2, page.FindAll("ul.changes li").Count));
        await page.Find("#plan-seconds").ChangeAsync("1");
        NurseryPages.Button(page, "Try it out").Click();
        page.WaitForElement("[aria-label=Computing]");
        await pages.Services.GetRequiredService<JobsAtOnce>().WorkAsync();
        NurseryPages.Look(page, nursery, () => Assert.NotEmpty(page.FindAll("[aria-label=Proposal]")));

        Assert.Equal("Tried out, not in force", page.Find("[aria-label=Proposal] h2").TextContent);
        Assert.Contains("20 spaces on a warm bench more", Flat(page.Find("[aria-label=Proposal]")), StringComparison.Ordinal);
        Assert.DoesNotContain(page.FindAll("button"), button => button.TextContent.StartsWith("Accept", StringComparison.Ordinal) || button.TextContent == "Drop it");
        Assert.Empty(page.FindAll("#line-plan ~ a, .fields a[aria-label^='Print the time line of what']"));
        Assert.Equal(["what is tried out", "today's plan"], page.FindAll("#line-plan option").Select(option => option.TextContent));
    }

    [Fact]
    public async Task TryOut_ValueThatIsNotAllowed_IsRefusedInASentence()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.HeadGrower);
        var page = Begun(pages, "Try something out");

        await page.Find("#change-kind").ChangeAsync("SpacesRented");
        await page.Find("#change-spaces").ChangeAsync("0");
        await NurseryPages.Button(page, "Add").ClickAsync(new());
        page.WaitForAssertion(() => Assert.Single(page.FindAll("ul.changes li")));
        NurseryPages.Button(page, "Try it out").Click();

        page.WaitForAssertion(() => Assert.Equal("spaces is ‘0’; allowed: 1 to 5000.", page.Find(".wrong[role=alert] p").TextContent));
        Assert.Single(page.FindAll("ul.changes li"));
    }

    private static IRenderedComponent<PlanPage> Begun(NurseryPages pages, string aim)
    {
        var page = pages.Render<PlanPage>();
        page.WaitForElement("[aria-label=Compute]");
        NurseryPages.Button(page, aim).Click();
        page.WaitForElement("#change-kind");
        return page;
    }

    private static string Flat(IElement element) => System.Text.RegularExpressions.Regex.Replace(element.TextContent, @"\s+", " ");
}
