using Microsoft.Playwright;
using Nursery.Browser.Tests.App;
using Xunit;
using static Microsoft.Playwright.Assertions;

namespace Nursery.Browser.Tests.Pages;

/// <summary>The Sowing screen with the demo's week, in the browser: all ways side by side, one chosen, the numbers opened.</summary>
public sealed class SowingTests(NurseryApp app) : IClassFixture<NurseryApp>
{
    private const string OfChosen = "FROM batches b JOIN allocations a ON a.batch_id = b.id WHERE b.state_stage = 'Planned' ORDER BY b.sow_on, b.code LIMIT 1";

    [Theory]
    [InlineData(1280, 800)]
    [InlineData(820, 1180)]
    public async Task AllWays_OneChosen_SaysWhatFollowsAndIsInTheStory(int width, int height)
    {
        await using var visit = await app.SignInAsAsync("head-grower", width, height);
        var (code, id) = (await app.SqlAsync<string>($"SELECT b.code {OfChosen}"), await app.SqlAsync<string>($"SELECT b.id::text {OfChosen}"));
        var day = await app.SqlAsync<string>($"SELECT to_char(b.sow_on, 'YYYY-MM-DD') {OfChosen}");
        var told = await ToldAsync();
        await visit.OpenAsync("/sowing?from=" + day);
        await Expect(visit.Page.GetByRole(AriaRole.Link, new() { Name = "Print the mix sheet" })).ToBeVisibleAsync();
        await Axe.NothingAsync(visit, "sowing");

        await visit.Page.GetByRole(AriaRole.Button, new() { Name = "All ways of " + code }).ClickAsync();
        var ways = visit.Page.GetByRole(AriaRole.Table, new() { Name = "Ways to sow " + code });
        await Expect(ways.GetByRole(AriaRole.Rowheader, new() { NameRegex = new("cheapest") })).ToBeVisibleAsync();
        await visit.Page.Locator(".ways summary").First.ClickAsync();
        await Expect(visit.Page.Locator(".ways .formula").First).ToBeVisibleAsync();
        await visit.PictureAsync($"sowing-{width}", whole: true);
        await Axe.NothingAsync(visit, "all ways");
        Assert.True(await visit.Page.EvaluateAsync<int>("document.documentElement.scrollWidth") <= width);

        await ways.GetByRole(AriaRole.Button, new() { Name = "Choose" }).Last.ClickAsync();

        await Expect(visit.Page.GetByRole(AriaRole.Status)).ToContainTextAsync(code + ": ");
        Assert.Equal(told + 1, await ToldAsync());

        Task<int> ToldAsync() => app.SqlAsync<int>($"SELECT count(*) FROM ledger WHERE batch_id = '{id}' AND kind = 'BatchReplanned'");
    }
}
