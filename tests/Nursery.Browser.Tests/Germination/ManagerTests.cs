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
        await page.GetByRole(AriaRole.Link, new() { Name = "Germination" }).ClickAsync();
        await Expect(page.Locator("h1")).ToHaveTextAsync("Germination");
        await Expect(page.Locator("main[data-interactive=true]")).ToBeVisibleAsync();
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
        var ledger = System.Text.Encoding.UTF8.GetString(await FileAsync(page, "The ledger: who did what, when"));
        Assert.StartsWith("id,what,day,happened_at,", ledger, StringComparison.Ordinal);
        Assert.Contains(",count,", ledger, StringComparison.Ordinal);

        await page.GetByLabel("Only below, %").FillAsync("1");
        await page.GetByLabel("Only below, %").PressAsync("Tab");
        await Expect(page.Locator(".empty")).ToContainTextAsync("No counted batch fits");
        await Axe.NothingAsync(visit, "nothing fits");
        await page.GetByRole(AriaRole.Button, new() { Name = "Show all" }).ClickAsync();
        await Expect(rows.First).ToBeVisibleAsync();
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

    private static async Task<byte[]> FileAsync(IPage page, string link)
    {
        var address = await page.GetByRole(AriaRole.Link, new() { Name = link }).GetAttributeAsync("href");
        var answer = await page.Context.APIRequest.GetAsync(address!);
        Assert.Equal(200, answer.Status);
        return await answer.BodyAsync();
    }
}
