using System.Globalization;
using Microsoft.Playwright;
using Nursery.Browser.Tests.App;
using Nursery.Browser.Tests.Rounds;
using UglyToad.PdfPig;
using Xunit;
using static Microsoft.Playwright.Assertions;

namespace Nursery.Browser.Tests.Chain;

/// <summary>From an order to a germination rate and a bench tag, each person at their own screen.</summary>
public sealed class ChainTests(NurseryApp app) : IClassFixture<NurseryApp>
{
    private const string Order = "CHAIN-1";

    [Fact]
    public async Task Order_BecomesSownTraysOnABenchAndATag()
    {
        // A variety of a crop with one lot or more, on the day its sowing is due: ready day = today + weeks + the site's margin.
        var variety = await app.SqlAsync<string>(
            "SELECT v.code FROM varieties v JOIN crops c ON c.id = v.crop_id JOIN seed_lots l ON l.variety_id = v.id WHERE c.code = 'PE' AND l.stock_seeds > 1000 ORDER BY v.code LIMIT 1");
        var ready = await app.SqlAsync<string>(
            "SELECT to_char((now() AT TIME ZONE s.time_zone)::date + (c.weeks_to_transplant * 7)::int + s.margin_days, 'YYYY-MM-DD') FROM sites s, crops c WHERE c.code = 'PE'");

        var batch = await HeadGrowerPlansAsync(variety, ready);
        await StaffSowsAsync(batch);
        await TagSaysAsync(batch);
    }

    [Fact]
    public async Task Count_OnTheTablet_ReachesTheManagersRate()
    {
        string crop;
        await using (var staff = await app.SignInAsAsync("staff", 820, 1180))
        {
            var round = await RoundPage.OpenAsync(staff);
            var card = await round.FirstOpenAsync("EmergenceCheck");
            var batch = await card.GetAttributeAsync("data-batch");
            crop = await app.SqlAsync<string>(
                $"SELECT c.name FROM batches b JOIN varieties v ON v.id = b.variety_id JOIN crops c ON c.id = v.crop_id WHERE b.id = '{batch}'");
            var seeds = await app.SqlAsync<int>($"SELECT cells * seeds_per_cell FROM batches WHERE id = '{batch}'");
            await RoundPage.Press(card, "Count").ClickAsync();
            await RoundPage.Press(card, "seedlings").ClickAsync();
            await card.GetByLabel("Trays counted").FillAsync("");
            await card.GetByLabel("How many").FillAsync(seeds.ToString(CultureInfo.InvariantCulture));
            await RoundPage.Press(card, "Save the count").ClickAsync();
            await round.SentAsync();
            await Axe.NothingAsync(staff, staff.Page.Url);
        }

        var expected = await app.SqlAsync<string>(
            $"""
            SELECT to_char(100 * sum(b.state_counted_up) / sum(b.state_counted_seeds), 'FM990.0') || ' %'
            FROM batches b JOIN varieties v ON v.id = b.variety_id JOIN crops c ON c.id = v.crop_id
            WHERE c.name = '{crop}' AND b.state_counted_seeds IS NOT NULL
            """);
        await using var manager = await app.SignInAsAsync("manager");
        await manager.OpenAsync("/germination");
        var row = manager.Page.GetByRole(AriaRole.Row).Filter(new() { Has = manager.Page.GetByRole(AriaRole.Cell, new() { Name = crop, Exact = true }) });
        await Expect(row.Locator("strong")).ToHaveTextAsync(expected);
        await manager.PictureAsync("chain-germination");
        await Axe.NothingAsync(manager, manager.Page.Url);
    }

    private async Task<string> HeadGrowerPlansAsync(string variety, string ready)
    {
        await using var visit = await app.SignInAsAsync("head-grower");
        var page = visit.Page;
        await visit.OpenAsync("/orders");
        await page.GetByRole(AriaRole.Button, new() { Name = "Import orders" }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Paste rows instead" }).ClickAsync();
        await CheckRowsAsync(page, $"order,customer,variety,plants,ready_on\n{Order},Chain Garden,NO-SUCH,120,{ready}\n");
        await Expect(page.GetByRole(AriaRole.Alert)).ToContainTextAsync("stored");
        await Expect(page.GetByText("NO-SUCH")).ToBeVisibleAsync();
        Assert.Equal(0, await app.SqlAsync<int>($"SELECT count(*) FROM orders WHERE number = '{Order}'"));

        await CheckRowsAsync(page, $"order,customer,variety,plants,ready_on\n{Order},Chain Garden,{variety},120,{ready}\n");
        await page.GetByRole(AriaRole.Button, new() { Name = "Import 1 order line" }).ClickAsync();
        await Expect(page.GetByText("imported")).ToBeVisibleAsync();
        await Axe.NothingAsync(visit, visit.Page.Url);

        await page.GetByRole(AriaRole.Button, new() { Name = "Make batches", Exact = true }).ClickAsync();
        await page.GetByLabel("Find").FillAsync(Order);
        await page.GetByRole(AriaRole.Checkbox, new() { Name = $"Pick {Order}" }).CheckAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "you picked" }).ClickAsync();
        var made = page.GetByRole(AriaRole.Table, new() { Name = "Made" }).GetByRole(AriaRole.Link);
        var code = await made.InnerTextAsync();
        await made.ClickAsync();

        await ReserveAsync(page, await ZoneAsync("z.setpoint_c < c.germination_min_c"));
        await Expect(page.GetByRole(AriaRole.Alert)).ToContainTextAsync("too cold");
        await ReserveAsync(page, await ZoneAsync("z.setpoint_c BETWEEN c.germination_min_c AND c.germination_max_c AND NOT EXISTS (SELECT FROM reservations r WHERE r.bench_id = b.id AND r.spaces && int4range(upper(z.spaces) - 6, upper(z.spaces)))", fromEnd: 6));
        await Expect(page.GetByRole(AriaRole.Status).First).ToBeVisibleAsync();
        await visit.PictureAsync("chain-batch", whole: true);
        Assert.Equal(1, await app.SqlAsync<int>(
            $"SELECT count(*) FROM reservations r JOIN tray_sets t ON t.id = r.tray_set_id WHERE t.code = '{code}-1'"));
        await Axe.NothingAsync(visit, visit.Page.Url);

        await visit.OpenAsync("/benches");
        await Expect(page.GetByRole(AriaRole.Button, new() { Name = code })).ToBeVisibleAsync();
        await visit.PictureAsync("chain-benches");
        await Axe.NothingAsync(visit, visit.Page.Url);
        return code;
    }

    private async Task StaffSowsAsync(string batch)
    {
        await using var visit = await app.SignInAsAsync("staff", 820, 1180);
        var round = await RoundPage.OpenAsync(visit);
        var id = await app.SqlAsync<string>($"SELECT id::text FROM batches WHERE code = '{batch}'");
        var card = round.Page.Locator($"[data-kind=Sow][data-batch=\"{id}\"]");
        await RoundPage.Box(card).ClickAsync();
        await round.SentAsync();
        Assert.Equal("Sown", await app.SqlAsync<string>($"SELECT state_stage FROM batches WHERE id = '{id}'"));
        Assert.Equal(1, await app.SqlAsync<int>(
            $"SELECT count(*) FROM standings s JOIN tray_sets t ON t.id = s.tray_set_id WHERE t.code = '{batch}-1'"));
    }

    private async Task TagSaysAsync(string batch)
    {
        await using var visit = await app.SignInAsAsync("head-grower");
        var answer = await visit.Page.Context.APIRequest.GetAsync("/api/v1/papers/bench-tags.pdf?paper=a4");
        Assert.Equal(200, answer.Status);
        using var tags = PdfDocument.Open(await answer.BodyAsync());
        Assert.Contains(tags.GetPages(), tag => tag.Text.Contains(batch, StringComparison.Ordinal));
    }

    /// <summary>A bench and the first space of a zone on it, or one so many spaces before the zone's end.</summary>
    private async Task<(string Bench, int First)> ZoneAsync(string zone, int? fromEnd = null)
    {
        var first = fromEnd is { } spaces ? $"upper(z.spaces) - {spaces}" : "lower(z.spaces)";
        var found = await app.SqlAsync<string>(
            $"SELECT b.code || ' ' || ({first}) FROM heat_zones z JOIN benches b ON b.id = z.bench_id, crops c WHERE c.code = 'PE' AND {zone} ORDER BY b.code LIMIT 1");
        var words = found.Split(' ');
        return (words[0], int.Parse(words[1], CultureInfo.InvariantCulture));
    }

    private static async Task CheckRowsAsync(IPage page, string rows)
    {
        await page.GetByLabel("Rows, with the first line").FillAsync(rows);
        await page.GetByRole(AriaRole.Button, new() { Name = "Check the rows" }).ClickAsync();
    }

    private static async Task ReserveAsync(IPage page, (string Bench, int First) place)
    {
        var form = page.Locator("details.reserve");
        if (await form.GetAttributeAsync("open") is null)
        {
            await form.Locator("summary").ClickAsync();
        }

        await form.GetByLabel("Bench").SelectOptionAsync(place.Bench);
        await form.GetByLabel("First space").FillAsync(place.First.ToString(CultureInfo.InvariantCulture));
        await form.GetByRole(AriaRole.Button, new() { Name = "Reserve" }).ClickAsync();
    }
}
