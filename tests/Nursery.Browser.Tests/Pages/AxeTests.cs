using Microsoft.Playwright;
using Nursery.Browser.Tests.App;
using Xunit;
using static Microsoft.Playwright.Assertions;

namespace Nursery.Browser.Tests.Pages;

/// <summary>axe-core finds nothing on the head grower's and the administrator's pages, in the states they meet.</summary>
public sealed class AxeTests(NurseryApp app) : IClassFixture<NurseryApp>
{
    [Fact]
    public async Task Axe_OfAPageThatIsWrong_SeesIt()
    {
        await using var visit = await app.VisitAsync(820, 1180);
        await visit.Page.SetContentAsync("<html lang=en><title>t</title><main><h1>h</h1><p>p</p><ul><li>l</li></ul><a href=#a>a</a><img src='data:,'></main>");

        var said = await Assert.ThrowsAnyAsync<Xunit.Sdk.XunitException>(() => Axe.NothingAsync(visit, "a picture without words"));

        Assert.Contains("image-alt (critical)", said.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(1280, 800)]
    [InlineData(820, 1180)]
    public async Task Benches_InEveryState_HaveNoViolation(int width, int height)
    {
        await using var visit = await app.SignInAsAsync("head-grower", width, height);
        await visit.OpenAsync("/benches");
        await Expect(visit.Page.Locator(".map-scroll.can-move")).ToBeVisibleAsync();
        await Axe.NothingAsync(visit, "benches");

        await visit.Page.Locator(".set[data-reservation]").First.PressAsync("Enter");
        await visit.Page.GetByRole(AriaRole.Button, new() { Name = "Move …" }).ClickAsync();
        await Expect(visit.Page.Locator("form.move [role=status]")).Not.ToHaveTextAsync("Asking …");
        await Axe.NothingAsync(visit, "move form");

        await visit.Page.Locator(".plate").First.PressAsync("Enter");
        await Expect(visit.Page.Locator(".zone-tag h2")).ToBeVisibleAsync();
        await Axe.NothingAsync(visit, "zone");
    }

    [Theory]
    [InlineData(1280, 800)]
    [InlineData(820, 1180)]
    public async Task Lists_HaveNoViolation(int width, int height)
    {
        await using var visit = await app.SignInAsAsync("head-grower", width, height);
        var batch = await app.SqlAsync<string>("SELECT id::text FROM batches WHERE state_stage <> 'Planned' ORDER BY code LIMIT 1");
        foreach (var path in new[] { "/", "/orders", "/batches", "/batches/new", $"/batches/{batch}", "/germination", "/heat-and-light", "/papers", "/plan" })
        {
            await visit.Page.GotoAsync(path);
            await Expect(visit.Page.Locator("h1").First).ToBeVisibleAsync();
            await visit.Page.WaitForLoadStateAsync(LoadState.NetworkIdle);
            await Axe.NothingAsync(visit, path);
        }
    }

    /// <summary>The demo has no batch that falls short; one whose orders grow has.</summary>
    [Theory]
    [InlineData(1280, 800)]
    [InlineData(820, 1180)]
    public async Task ShortStands_EmptyAndFull_HaveNoViolation(int width, int height)
    {
        await using var visit = await app.SignInAsAsync("head-grower", width, height);
        const string Chosen = "(SELECT a.batch_id FROM allocations a JOIN batches b ON b.id = a.batch_id WHERE b.state_stage = 'GrowingOn' ORDER BY b.code LIMIT 1)";
        await visit.OpenAsync("/short-stands");
        await Expect(visit.Page.Locator(".empty")).ToBeVisibleAsync();
        await Axe.NothingAsync(visit, "no short stand");
        var batch = await app.SqlAsync<string>($"UPDATE allocations SET plants = plants * 3 WHERE batch_id = {Chosen} RETURNING batch_id::text");

        try
        {
            await visit.OpenAsync("/short-stands");
            await Expect(visit.Page.Locator(".short-stand")).ToBeVisibleAsync();
            await visit.Page.Locator(".short-stand summary").First.ClickAsync();
            await Axe.NothingAsync(visit, "short stands");
            await visit.OpenAsync($"/batches/{batch}");
            await Expect(visit.Page.Locator(".forecast svg")).ToBeVisibleAsync();
            await visit.Page.Locator(".forecast summary").First.ClickAsync();
            await Axe.NothingAsync(visit, "forecast");
            await visit.OpenAsync("/");
            await Expect(visit.Page.Locator(".short-stands .short-stand")).ToBeVisibleAsync();
            await Axe.NothingAsync(visit, "start with a short stand");

            var wide = await visit.Page.EvaluateAsync<int>("() => document.documentElement.scrollWidth");
            Assert.True(wide <= width, $"{wide} px wide on {width}");
        }
        finally
        {
            await app.SqlAsync<string>($"UPDATE allocations SET plants = plants / 3 WHERE batch_id = {Chosen} RETURNING batch_id::text");
        }
    }

    [Fact]
    public async Task Setup_EveryList_HasNoViolation()
    {
        await using var visit = await app.SignInAsAsync("administrator");
        await visit.OpenAsync("/setup");
        await Expect(visit.Page.Locator(".lists").First).ToBeVisibleAsync();
        await Axe.NothingAsync(visit, "/setup");
        var links = await visit.Page.Locator(".lists a:not([download])").EvaluateAllAsync<string[]>("links => links.map(link => link.getAttribute('href'))");
        Assert.True(links.Length >= 9, $"only {links.Length} lists");
        foreach (var path in links)
        {
            await visit.OpenAsync(path);
            await Expect(visit.Page.Locator("main table.list, main form").First).ToBeVisibleAsync();
            await Axe.NothingAsync(visit, path);
            if (await visit.Page.GetByRole(AriaRole.Button, new() { NameRegex = new("^Add a ") }).First.IsVisibleAsync())
            {
                await visit.Page.GetByRole(AriaRole.Button, new() { NameRegex = new("^Add a ") }).First.ClickAsync();
                await Expect(visit.Page.Locator("section.panel form")).ToBeVisibleAsync();
                await Axe.NothingAsync(visit, $"{path} form");
            }
        }
    }
}
