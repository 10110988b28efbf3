using Bunit;
using Microsoft.Extensions.DependencyInjection;
using Nursery.Application.Papers;
using Nursery.Domain.People;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Nursery.Web.Components.Pages.Papers;
using Nursery.Web.Tests.Pages;
using Xunit;

namespace Nursery.Web.Tests.Papers;

public sealed class PapersPageTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    [Fact]
    public async Task Page_HouseAndPaperChosen_LinksToThatPdf()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.Manager);
        var page = pages.Render<PapersPage>();
        Assert.StartsWith("No tags", page.WaitForElement(".preview .empty").TextContent, StringComparison.Ordinal);
        Assert.Empty(page.FindAll(".preview img"));
        await Take(page, "Bench tags");

        Assert.Equal("/api/v1/papers/bench-tags.pdf?paper=letter", page.Find("a.do.first").GetAttribute("href"));
        await page.Find("#house").ChangeAsync("H2");
        await page.Find("#paper").ChangeAsync("A4");

        Assert.Equal("/api/v1/papers/bench-tags.pdf?paper=a4&house=H2", page.Find("a.do.first").GetAttribute("href"));
    }

    [Theory]
    [InlineData("Tray tags", "tray-tags.pdf?paper=letter")]
    [InlineData("Sowing sheet", "sowing-sheet.pdf?paper=letter&from=2026-03-02&to=2026-03-08")]
    [InlineData("Round sheet", "round-sheet.pdf?paper=letter&on=2026-03-02")]
    [InlineData("Carry list", "carry-list.pdf?paper=letter&from=2026-03-02&days=7")]
    [InlineData("Pick list", "pick-list.pdf?paper=letter&on=2026-03-02")]
    [InlineData("Patch sheet", "patch-sheet.pdf?paper=letter")]
    [InlineData("Bench plan", "bench-plan.pdf?paper=letter&on=2026-03-02")]
    [InlineData("Plan time line", "plan-time-line.pdf?paper=letter&plan=inForce")]
    public async Task Page_Paper_ShowsItsPictureAndAddress(string paper, string address)
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.Staff);
        await nursery.PlanAsync(nursery.Pepper);
        var page = pages.Render<PapersPage>();
        page.WaitForElement(".preview img");

        await Take(page, paper);

        page.WaitForAssertion(() => Assert.Equal($"{paper}, page 1 as it will be printed", page.Find(".preview img").GetAttribute("alt")));
        Assert.StartsWith("data:image/png;base64,iVBOR", page.Find(".preview img").GetAttribute("src"), StringComparison.Ordinal);
        Assert.Equal("/api/v1/papers/" + address, page.Find("a.do.first").GetAttribute("href"));
    }

    [Fact]
    public async Task Page_BatchThatIsNone_SaysSoAndShowsNoPicture()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.Staff);
        await nursery.PlanAsync(nursery.Pepper);
        var page = pages.Render<PapersPage>();
        page.WaitForElement(".preview img");

        await page.Find("#code").ChangeAsync("XX-1-1");

        page.WaitForAssertion(() => Assert.Contains("XX-1-1", page.Find("[role=alert]").TextContent, StringComparison.Ordinal));
        Assert.Empty(page.FindAll(".preview img"));
    }

    [Fact]
    public async Task Page_MoreTagsThanOneAnswerGives_PrintsInTheBackgroundAndSurvivesAReload()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.Staff);
        await nursery.PlanAsync(nursery.Pepper, trays: 320, inDays: 1);
        var page = pages.Render<PapersPage>();
        page.WaitForElement(".preview img");
        Assert.Contains("The first 300 of 320 tags", page.Find(".preview").TextContent, StringComparison.Ordinal);
        Assert.Empty(page.FindAll("a.do.first"));

        await Button(page, "Print these 320 tags").ClickAsync(new());

        page.WaitForAssertion(() => Assert.Contains("Tags of all trays", page.Find(Prints).TextContent, StringComparison.Ordinal));
        Assert.Contains("Waiting to begin", page.Find(Prints).TextContent, StringComparison.Ordinal);
        var reloaded = pages.Render<PapersPage>();
        reloaded.WaitForElement(Prints + " progress");
        await pages.Services.GetRequiredService<JobsAtOnce>().WorkAsync();

        foreach (var each in new[] { page, reloaded })
        {
            NurseryPages.Look(each, nursery, () => Assert.Contains("Open the PDF of 320 tags", each.Find(Prints).TextContent, StringComparison.Ordinal));
        }

        var run = Assert.Single(await nursery.Get<ShowTagsRuns>().HandleAsync(nursery.Staff));
        Assert.Equal($"/api/v1/papers/tray-tags/runs/{run.Id}/tags.pdf", page.Find(Prints + " a").GetAttribute("href"));
    }

    [Fact]
    public async Task Page_PrintStopped_SaysThatNothingIsKept()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.Staff);
        await nursery.PlanAsync(nursery.Pepper, trays: 320, inDays: 1);
        var page = pages.Render<PapersPage>();
        page.WaitForElement(".preview img");
        await Button(page, "Print these 320 tags").ClickAsync(new());
        page.WaitForElement(Prints + " button");

        await Button(page, "Stop").ClickAsync(new());

        page.WaitForAssertion(() => Assert.Contains("Stopped after 0 of 320 tags; nothing is kept", page.Find(Prints).TextContent, StringComparison.Ordinal));
        Assert.Empty(page.FindAll(Prints + " a"));
    }

    private const string Prints = "[aria-label='Prints in the background']";

    private static AngleSharp.Dom.IElement Button(IRenderedComponent<PapersPage> page, string words) =>
        page.FindAll("button").Single(button => button.TextContent == words);

    private static Task Take(IRenderedComponent<PapersPage> page, string paper) =>
        page.FindAll(".kinds button").Single(button => button.TextContent == paper).ClickAsync(new());
}
