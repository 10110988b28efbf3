using Bunit;
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
        page.WaitForElement(".preview img");
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
    [InlineData("Bench plan", "bench-plan.pdf?paper=letter&on=2026-03-02")]
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
        var page = pages.Render<PapersPage>();
        page.WaitForElement(".preview img");

        await page.Find("#code").ChangeAsync("XX-1-1");

        page.WaitForAssertion(() => Assert.Contains("XX-1-1", page.Find("[role=alert]").TextContent, StringComparison.Ordinal));
        Assert.Empty(page.FindAll(".preview img"));
    }

    private static Task Take(IRenderedComponent<PapersPage> page, string paper) =>
        page.FindAll(".kinds button").Single(button => button.TextContent == paper).ClickAsync(new());
}
