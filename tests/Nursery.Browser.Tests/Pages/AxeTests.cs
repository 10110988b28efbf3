using Microsoft.Playwright;
using Nursery.Browser.Tests.App;
using Xunit;
using static Microsoft.Playwright.Assertions;

namespace Nursery.Browser.Tests.Pages;

/// <summary>axe-core finds nothing on the head grower's and the administrator's pages, in the states they meet.</summary>
public sealed class AxeTests(NurseryApp app) : IClassFixture<NurseryApp>
{
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
        foreach (var path in new[] { "/", "/orders", "/batches", "/batches/new", $"/batches/{batch}", "/germination", "/heat-and-light", "/papers" })
        {
            await visit.Page.GotoAsync(path);
            await Expect(visit.Page.Locator("h1").First).ToBeVisibleAsync();
            await visit.Page.WaitForLoadStateAsync(LoadState.NetworkIdle);
            await Axe.NothingAsync(visit, path);
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
