using Microsoft.Playwright;
using Nursery.Browser.Tests.App;
using UglyToad.PdfPig;
using Xunit;
using static Microsoft.Playwright.Assertions;

namespace Nursery.Browser.Tests.Germination;

/// <summary>The manager asks how the seed came up, from signing in to the files on the desk.</summary>
public sealed class ManagerTests(NurseryApp app) : IClassFixture<NurseryApp>
{
    [Theory]
    [InlineData(1280, 800)]
    [InlineData(820, 1180)]
    public async Task Manager_LooksAtLots_OpensCurvesAndTakesFilesAlong(int width, int height)
    {
        await using var visit = await app.SignInAsAsync("manager", width, height);
        var page = visit.Page;
        await visit.OpenAsync("/");
        await Axe.NothingAsync(visit, "start");
        await visit.PictureAsync($"start-manager-{width}", whole: true);
        await page.GetByRole(AriaRole.Link, new() { Name = "Germination" }).ClickAsync();
        await Expect(page.Locator("h1")).ToHaveTextAsync("Germination");
        await Expect(page.Locator("main[data-interactive=true]")).ToBeVisibleAsync();
        await Expect(page.Locator("button.opens").First).ToBeVisibleAsync();
        await Axe.NothingAsync(visit, "every crop");
        await visit.PictureAsync($"germination-full-{width}", whole: true);
        await page.GetByLabel("By", new() { Exact = true }).SelectOptionAsync("Lot");
        await page.GetByLabel("Crop", new() { Exact = true }).SelectOptionAsync("PE");
        var rows = page.Locator("button.opens");
        await Expect(rows).ToHaveCountAsync(await app.SqlAsync<int>(
            """
            SELECT count(DISTINCT b.lot_id) FROM batches b JOIN varieties v ON v.id = b.variety_id JOIN crops c ON c.id = v.crop_id
            WHERE c.code = 'PE' AND b.state_counted_seeds > 0
            """));
        await page.GetByRole(AriaRole.Button, new() { Name = "rate" }).ClickAsync();
        await Expect(page.Locator("th[aria-sort=descending]")).ToContainTextAsync("rate");
        await Axe.NothingAsync(visit, "rows");

        // Keyboard: a row opens and its curve is named in the picture and lifted out of the others.
        await rows.First.PressAsync("Enter");
        var curves = page.Locator("figure.curves svg");
        await Expect(curves).ToBeVisibleAsync();
        await page.Locator("tr.opened button.link").First.PressAsync("Enter");
        await Expect(page.Locator("g.chosen")).ToHaveCountAsync(1);
        await page.GetByText("The counts behind the curves").ClickAsync();
        await Expect(page.Locator("tr.opened details tbody tr").First).ToBeVisibleAsync();
        Assert.Empty(await curves.EvaluateAsync<string[]>(LabelsThatTouch));
        await Axe.NothingAsync(visit, "curves");
        await visit.PictureAsync($"germination-lot-{width}", whole: true);

        var name = await rows.First.InnerTextAsync();
        var lot = name.Split(' ')[0];
        using var paper = PdfDocument.Open(await FileAsync(page, "Open as a one-page PDF"));
        var printed = string.Concat(Assert.Single(paper.GetPages()).Letters.Select(letter => letter.Value)).Replace(" ", "", StringComparison.Ordinal);
        Assert.Contains("Germinationbyseedlot", printed, StringComparison.Ordinal);
        Assert.Matches($"Emergencecurvesof\\d+batch(es)?:{lot}", printed);
        Assert.Contains(await page.Locator("tbody strong").First.InnerTextAsync() is var rate ? rate.Replace(" ", "", StringComparison.Ordinal) : "", printed, StringComparison.Ordinal);

        var csv = System.Text.Encoding.UTF8.GetString(await FileAsync(page, "Rows as CSV"));
        Assert.Equal(await rows.CountAsync() + 1, csv.Split("\r\n", StringSplitOptions.RemoveEmptyEntries).Length);
        Assert.StartsWith(lot + ",", csv.Split("\r\n")[1], StringComparison.Ordinal);
        await page.GetByLabel("Only below, %").FillAsync("1");
        await page.GetByLabel("Only below, %").PressAsync("Tab");
        await Expect(page.Locator(".empty")).ToContainTextAsync("No counted batch fits");
        await Axe.NothingAsync(visit, "nothing fits");
        await page.GetByRole(AriaRole.Button, new() { Name = "Show all" }).ClickAsync();
        await Expect(rows.First).ToBeVisibleAsync();
    }

    /// <summary>A variety of one counted batch: a row, a curve, and nothing to compare it with.</summary>
    [Theory]
    [InlineData(1280, 800)]
    [InlineData(820, 1180)]
    public async Task Manager_OpensAVarietyOfOneBatch_SeesItsCurveAlone(int width, int height)
    {
        await using var visit = await app.SignInAsAsync("manager", width, height);
        var page = visit.Page;
        var lot = await app.SqlAsync<string>(
            "SELECT l.code FROM batches b JOIN seed_lots l ON l.id = b.lot_id WHERE b.state_counted_seeds > 0 GROUP BY l.code HAVING count(*) = 1 ORDER BY l.code LIMIT 1");
        await visit.OpenAsync("/germination");
        await page.GetByLabel("By", new() { Exact = true }).SelectOptionAsync("Variety");
        await page.GetByLabel("Seed lot").FillAsync(lot);
        await page.GetByLabel("Seed lot").PressAsync("Tab");
        var rows = page.Locator("button.opens");
        await Expect(rows).ToHaveCountAsync(1);
        await rows.First.ClickAsync();
        await Expect(page.Locator("figure.curves svg")).ToBeVisibleAsync();
        await Expect(page.Locator("tr.opened button.link")).ToHaveCountAsync(1);
        await Expect(page.Locator(".head [role=status]")).ToContainTextAsync("in 1 batch");
        Assert.Empty(await page.Locator("figure.curves svg").EvaluateAsync<string[]>(LabelsThatTouch));
        await Axe.NothingAsync(visit, "one batch");
        await visit.PictureAsync($"germination-one-batch-{width}", whole: true);
        using var paper = PdfDocument.Open(await FileAsync(page, "Open as a one-page PDF"));
        Assert.Equal(1, paper.NumberOfPages);
    }

    /// <summary>What leaves the house and what an accountant asks for: the pick list of an order, and every list as a file.</summary>
    [Theory]
    [InlineData(1280, 800)]
    [InlineData(820, 1180)]
    public async Task Manager_PicturesAPickListAndTakesEveryListAlong(int width, int height)
    {
        await using var visit = await app.SignInAsAsync("manager", width, height);
        var page = visit.Page;
        var order = await app.SqlAsync<string>(
            "SELECT o.number FROM orders o JOIN order_lines l ON l.order_id = o.id JOIN allocations a ON a.order_line_id = l.id ORDER BY o.number LIMIT 1");
        await visit.OpenAsync("/papers");
        await page.GetByRole(AriaRole.Button, new() { Name = "Pick list", Exact = true }).ClickAsync();
        await page.GetByLabel("Wanted on").FillAsync("");
        await page.GetByLabel("Order", new() { Exact = true }).FillAsync(order);
        await page.GetByLabel("Order", new() { Exact = true }).PressAsync("Tab");
        await Expect(page.GetByRole(AriaRole.Link, new() { Name = "Open the PDF" })).ToHaveAttributeAsync("href", new System.Text.RegularExpressions.Regex($"order={order}"));
        await page.GetByAltText("Pick list, page 1 as it will be printed").WaitForAsync(new() { Timeout = 60_000 });
        await Axe.NothingAsync(visit, "pick list");
        await visit.PictureAsync($"papers-pick-list-of-an-order-{width}", whole: true);
        using (var paper = PdfDocument.Open(await FileAsync(page, "Open the PDF")))
        {
            Assert.Contains($"Order{order}", string.Concat(paper.GetPage(1).Letters.Select(letter => letter.Value)).Replace(" ", "", StringComparison.Ordinal), StringComparison.Ordinal);
        }

        await visit.OpenAsync("/germination");
        var exports = page.GetByRole(AriaRole.Region, new() { Name = "Everything as CSV" });
        await exports.ScrollIntoViewIfNeededAsync();
        await visit.PictureAsync($"exports-{width}");
        var links = await exports.GetByRole(AriaRole.Link).AllInnerTextsAsync();
        Assert.True(links.Count >= 8, $"only {links.Count} files");
        foreach (var link in links)
        {
            var lines = System.Text.Encoding.UTF8.GetString(await FetchAsync(page, exports.GetByRole(AriaRole.Link, new() { Name = link, Exact = true }))).Split("\r\n", StringSplitOptions.RemoveEmptyEntries);
            Assert.Matches("^[a-z_]+(,[a-z_]+)+$", lines[0]);
            if (link.StartsWith("The ledger", StringComparison.Ordinal))
            {
                Assert.StartsWith("id,what,day,happened_at,", lines[0], StringComparison.Ordinal);
                Assert.Contains(lines, line => line.Contains(",count,", StringComparison.Ordinal));
            }
        }
    }

    /// <summary>Boxes of the drawing's texts that lie on each other, and those outside the drawing.</summary>
    private const string LabelsThatTouch =
        """
        svg => {
          const whole = svg.getBoundingClientRect();
          const boxes = [...svg.querySelectorAll('text')].map(text => ({ words: text.textContent, box: text.getBoundingClientRect() }));
          const found = boxes.filter(one => one.box.right > whole.right + 1 || one.box.left < whole.left - 1 || one.box.top < whole.top - 1 || one.box.bottom > whole.bottom + 1).map(one => one.words + ' sticks out');
          boxes.forEach((one, i) => boxes.slice(i + 1).forEach(two => {
            // A line of text is higher than its letters.
            if (one.box.left < two.box.right && two.box.left < one.box.right && one.box.top + 2 < two.box.bottom - 2 && two.box.top + 2 < one.box.bottom - 2) found.push(one.words + ' on ' + two.words);
          }));
          return found;
        }
        """;

    private static Task<byte[]> FileAsync(IPage page, string link) => FetchAsync(page, page.GetByRole(AriaRole.Link, new() { Name = link }));

    private static async Task<byte[]> FetchAsync(IPage page, ILocator link)
    {
        var address = await link.GetAttributeAsync("href");
        var answer = await page.Context.APIRequest.GetAsync(address!);
        Assert.Equal(200, answer.Status);
        return await answer.BodyAsync();
    }
}
