using System.Globalization;
using Microsoft.Playwright;
using Nursery.Browser.Tests.App;
using Xunit;
using static Microsoft.Playwright.Assertions;

namespace Nursery.Browser.Tests.Plans;

/// <summary>A bench of the demo fails: the head grower computes what changes, accepts it, and sees it on the map; then something is tried
/// out, and nothing changes.</summary>
public sealed class ReplanTests(NurseryApp app) : IClassFixture<NurseryApp>
{
    private const float Longest = 60_000;

    /// <summary>All a plan in force is made of.</summary>
    private const string InForce =
        """
        SELECT md5(string_agg(line, ';' ORDER BY line)) FROM (
            SELECT concat_ws(' ', r.tray_set_id, r.bench_id, r.spaces, r.days) AS line FROM reservations r
            UNION ALL SELECT concat_ws(' ', b.code, b.sow_on, b.ready_on) FROM batches b
            UNION ALL SELECT concat_ws(' ', o.bench_id, o.days) FROM outages o) AS lines
        """;

    [Theory]
    [InlineData(1280, 800)]
    [InlineData(820, 1180)]
    public async Task BenchFails_ProposalAccepted_ItsTraysStandElsewhere_ThenATrialChangesNothing(int width, int height)
    {
        await using var visit = await app.SignInAsAsync("head-grower", width, height);
        var page = visit.Page;

        // The growing bench that most is reserved on tomorrow, and one of its tray sets.
        var bench = await app.SqlAsync<string>(
            """
            SELECT b.code FROM benches b JOIN reservations r ON r.bench_id = b.id
            WHERE b.kind = 'Growing' AND NOT EXISTS (SELECT 1 FROM outages o WHERE o.bench_id = b.id) AND r.days && daterange(current_date + 1, current_date + 7)
            GROUP BY b.code ORDER BY count(*) DESC, b.code LIMIT 1
            """);
        var trays = await app.SqlAsync<string>(
            $"""
            SELECT s.code FROM reservations r JOIN tray_sets s ON s.id = r.tray_set_id JOIN benches b ON b.id = r.bench_id
            WHERE b.code = '{bench}' AND r.days @> current_date + 1 ORDER BY s.code LIMIT 1
            """);
        await ComputeAsync(visit, bench);

        await page.GetByRole(AriaRole.Button, new() { Name = "Accept all" }).ClickAsync();
        await Expect(page.Locator(".said")).ToContainTextAsync("accepted", new() { Timeout = Longest });
        await Axe.NothingAsync(visit, "accepted");
        Assert.Equal(0, await app.SqlAsync<int>(
            $"""
            SELECT count(*)::int FROM reservations r JOIN benches b ON b.id = r.bench_id JOIN outages o ON o.bench_id = b.id
            WHERE b.code = '{bench}' AND r.days && (o.days * daterange(current_date + 1, NULL))
            """));
        await LookAtTheMapAsync(visit, bench, trays);
        await TryOutAsync(visit);
    }

    private static async Task ComputeAsync(Visit visit, string bench)
    {
        var page = visit.Page;
        await visit.OpenAsync("/plan");
        await page.GetByRole(AriaRole.Button, new() { Name = "Something happened" }).ClickAsync();
        await page.GetByLabel("Bench", new() { Exact = true }).SelectOptionAsync(bench);
        await page.GetByLabel("Why").FillAsync("its leg broke");
        await page.GetByRole(AriaRole.Button, new() { Name = "Add", Exact = true }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.List, new() { Name = "What is counted with" })).ToContainTextAsync($"Bench {bench} cannot be used");
        await Axe.NothingAsync(visit, "something happened");
        await page.GetByLabel("Seconds to search").FillAsync("3");
        await page.GetByLabel("Seconds to search").PressAsync("Tab");
        await page.GetByRole(AriaRole.Button, new() { Name = "Compute what changes" }).ClickAsync();
        await Expect(page.Locator("[aria-label=Proposal]")).ToContainTextAsync("not sown yet", new() { Timeout = Longest });
        await Expect(page.Locator("[aria-label=Proposal]")).ToContainTextAsync("its leg broke");
        await Expect(page.Locator(".time-line .out-of-use").First).ToBeAttachedAsync();
        await Axe.NothingAsync(visit, "what changes");
        await visit.PictureAsync(Name("replan", page), whole: true);
        await NotTooWideAsync(page);
    }

    private async Task LookAtTheMapAsync(Visit visit, string bench, string trays)
    {
        var page = visit.Page;
        var house = await app.SqlAsync<string>($"SELECT h.code FROM houses h JOIN benches b ON b.house_id = h.id WHERE b.code = '{bench}'");
        await visit.OpenAsync($"/benches?House={house}");
        await Expect(page.GetByRole(AriaRole.List, new() { Name = "Out of use" })).ToContainTextAsync($"Bench {bench} is out of use");
        await Expect(page.GetByRole(AriaRole.List, new() { Name = "Out of use" })).ToContainTextAsync("its leg broke");
        await Expect(page.Locator("path.out").First).ToBeVisibleAsync();
        await Axe.NothingAsync(visit, "bench out of use");
        await visit.PictureAsync(Name("bench-out-of-use", page), whole: true);

        // Tomorrow the map shows what is planned: the trays are drawn on another bench.
        var place = (await app.SqlAsync<string>(
            $"""
            SELECT b.code || '/' || h.code FROM reservations r JOIN tray_sets s ON s.id = r.tray_set_id JOIN benches b ON b.id = r.bench_id JOIN houses h ON h.id = b.house_id
            WHERE s.code = '{trays}' AND r.days @> current_date + 1 ORDER BY b.code LIMIT 1
            """)).Split('/');
        var (other, where) = (place[0], place[1]);
        Assert.NotEqual(bench, other);
        await page.Locator($"button[data-house='{where}']").ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "+ day" }).ClickAsync();
        await Expect(page.Locator($"[aria-label^='{trays},'][aria-label*='bench {other},']").First).ToBeAttachedAsync();
    }

    private async Task TryOutAsync(Visit visit)
    {
        var page = visit.Page;
        var before = await app.SqlAsync<string>(InForce);
        await visit.OpenAsync("/plan");
        await page.GetByRole(AriaRole.Button, new() { Name = "Try something out" }).ClickAsync();
        await page.GetByLabel("What", new() { Exact = true }).SelectOptionAsync("SpacesRented");
        await page.GetByRole(AriaRole.Button, new() { Name = "Add", Exact = true }).ClickAsync();
        await page.GetByLabel("Seconds to search").FillAsync("2");
        await page.GetByLabel("Seconds to search").PressAsync("Tab");
        await page.GetByRole(AriaRole.Button, new() { Name = "Try it out" }).ClickAsync();
        await Expect(page.Locator("[aria-label=Proposal] h2")).ToHaveTextAsync("Tried out, not in force", new() { Timeout = Longest });
        await Expect(page.GetByRole(AriaRole.Button, new() { NameRegex = new("^Accept") })).ToHaveCountAsync(0);
        await Axe.NothingAsync(visit, "tried out");
        await visit.PictureAsync(Name("tried-out", page), whole: true);
        await NotTooWideAsync(page);
        Assert.Equal(before, await app.SqlAsync<string>(InForce));
    }

    private static string Name(string what, IPage page) => string.Create(CultureInfo.InvariantCulture, $"{what}-{page.ViewportSize!.Width}");

    private static async Task NotTooWideAsync(IPage page)
    {
        var wide = await page.EvaluateAsync<int>("() => document.documentElement.scrollWidth");
        Assert.True(wide <= page.ViewportSize!.Width, $"{wide} px wide on {page.ViewportSize.Width}");
    }
}
