using Microsoft.Playwright;
using Nursery.Browser.Tests.App;
using Xunit;
using static Microsoft.Playwright.Assertions;

namespace Nursery.Browser.Tests.Plans;

/// <summary>The head grower computes a proposal of the demo's season, watches it, reads it and accepts it.</summary>
public sealed class PlanTests(NurseryApp app) : IClassFixture<NurseryApp>
{
    private const float Longest = 60_000;

    [Theory]
    [InlineData(1280, 800)]
    [InlineData(820, 1180)]
    public async Task HeadGrower_ComputesReadsAndAccepts_HaveNoViolation(int width, int height)
    {
        await using var visit = await app.SignInAsAsync("head-grower", width, height);
        var page = visit.Page;
        await visit.OpenAsync("/");
        await page.GetByRole(AriaRole.Link, new() { Name = "Plan", Exact = true }).ClickAsync();
        await Expect(page.Locator("h1")).ToHaveTextAsync("Plan");
        await Expect(page.GetByLabel("Seconds to search")).ToBeVisibleAsync();

        // Stopped by hand: what it has found by then is the proposal.
        await page.GetByLabel("Seconds to search").FillAsync("600");
        await page.GetByLabel("Seconds to search").PressAsync("Tab");
        await page.GetByRole(AriaRole.Button, new() { NameRegex = new("^Compute ") }).ClickAsync();
        await Expect(page.Locator("[aria-label=Computing] strong")).ToContainTextAsync("Best plan so far: cost", new() { Timeout = Longest });
        await Axe.NothingAsync(visit, "computing");
        await page.GetByRole(AriaRole.Button, new() { NameRegex = new("^Stop, and take") }).ClickAsync();
        await Expect(page.Locator("[aria-label=Proposal] h2")).ToContainTextAsync("Proposal", new() { Timeout = Longest });
        await Axe.NothingAsync(visit, "proposal");
        foreach (var how in await page.Locator("[aria-label=Proposal] details.how-of summary").AllAsync())
        {
            await how.ClickAsync();
        }

        foreach (var load in await page.Locator(".load-curves summary").AllAsync())
        {
            await load.ClickAsync();
        }

        await page.GetByLabel("Rows").SelectOptionAsync("zones");
        await page.GetByLabel("Weeks across").SelectOptionAsync("4");
        await Expect(page.Locator(".time-line .bar.heat").First).ToBeVisibleAsync();

        // By keyboard: a batch's code instead of a click on its bar.
        var code = (await page.Locator(".time-line .words").First.TextContentAsync())!.Split(' ')[0];
        await page.GetByLabel("Batch", new() { Exact = true }).FillAsync(code);
        await page.GetByLabel("Batch", new() { Exact = true }).PressAsync("Tab");
        await Expect(page.Locator($"[aria-label='Where {code} stands']")).ToContainTextAsync("heat zone");
        await Expect(page.Locator(".time-line .chosen").First).ToBeVisibleAsync();
        await Axe.NothingAsync(visit, "how and zones");
        var wide = await page.EvaluateAsync<int>("() => document.documentElement.scrollWidth");
        Assert.True(wide <= width, $"{wide} px wide on {width}");

        await page.GetByRole(AriaRole.Button, new() { Name = "Accept all" }).ClickAsync();
        await Expect(page.Locator(".said")).ToContainTextAsync("accepted", new() { Timeout = Longest });
        await Axe.NothingAsync(visit, "accepted");
        await visit.PictureAsync($"plan-{width}", whole: true);
        Assert.Equal(0, await app.SqlAsync<int>(
            """
            SELECT count(*) FROM batches b JOIN tray_shares s ON s.batch_id = b.id
            WHERE b.state_stage = 'Planned' AND NOT EXISTS (SELECT 1 FROM reservations r WHERE r.tray_set_id = s.tray_set_id)
            """));
    }
}
