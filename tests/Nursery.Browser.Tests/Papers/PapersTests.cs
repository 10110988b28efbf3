using Microsoft.Playwright;
using Nursery.Browser.Tests.App;
using Xunit;

namespace Nursery.Browser.Tests.Papers;

public sealed class PapersTests(NurseryApp app) : IClassFixture<NurseryApp>
{
    [Fact]
    public async Task Papers_EachChosen_IsPicturedBeforeItIsPrinted()
    {
        await using var visit = await app.SignInAsAsync("head-grower");
        await visit.OpenAsync("/papers");
        foreach (var paper in new[] { "Tray tags", "Bench tags", "Sowing sheet", "Mix sheet", "Round sheet", "Carry list", "Pick list", "Patch sheet", "Bench plan" })
        {
            await visit.Page.GetByRole(AriaRole.Button, new() { Name = paper, Exact = true }).ClickAsync();
            var picture = visit.Page.GetByAltText($"{paper}, page 1 as it will be printed");
            await picture.WaitForAsync(new() { Timeout = 60_000 });
            Assert.True(await picture.EvaluateAsync<int>("picture => picture.naturalWidth") > 1000);
            await Axe.NothingAsync(visit, paper);
            await visit.PictureAsync("papers-" + paper.ToLowerInvariant().Replace(' ', '-'));
        }
    }

    [Fact]
    public async Task RoundSheet_FilledByHand_IsEnteredByKeyboardAlone()
    {
        await using var visit = await app.SignInAsAsync("staff");
        var sheet = await visit.Page.Context.APIRequest.GetAsync("/api/v1/papers/round-sheet.pdf");
        Assert.Equal(200, sheet.Status);
        var number = await app.SqlAsync<int>("SELECT max(number) FROM round_sheets");
        await visit.OpenAsync("/papers/round-sheet");
        var keys = visit.Page.Keyboard;

        // The field for the number has the focus, then the field for lines: nothing else is ever touched.
        await Assertions.Expect(visit.Page.GetByLabel("Sheet", new() { Exact = true })).ToBeFocusedAsync();
        await keys.TypeAsync($"{number}");
        await keys.PressAsync("Enter");
        await Assertions.Expect(visit.Page.GetByLabel("Line", new() { Exact = true })).ToBeFocusedAsync();
        await TypeAsync(visit, "1", rows: 1);
        await TypeAsync(visit, "2 n no time", rows: 2);
        await visit.PictureAsync("round-sheet-typed");
        await Axe.NothingAsync(visit, "round sheet");
        await keys.PressAsync("Enter");

        await visit.Page.GetByText("2 lines recorded").WaitForAsync();
        Assert.Equal("Done Open", await app.SqlAsync<string>(
            "SELECT string_agg(t.state, ' ' ORDER BY line) FROM round_sheets s, unnest(s.task_ids[1:2]) WITH ORDINALITY AS l(task, line) "
            + $"JOIN tasks t ON t.id = l.task WHERE s.number = {number}"));
        Assert.Equal(2, await app.SqlAsync<int>($"SELECT count(*) FROM ledger WHERE device LIKE 'round sheet {number}, typed by %' AND kind IN ('Done', 'NotYet')"));
    }

    private static async Task TypeAsync(Visit visit, string line, int rows)
    {
        await visit.Page.Keyboard.TypeAsync(line);
        await visit.Page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(visit.Page.Locator("table.list tbody tr")).ToHaveCountAsync(rows);
        await Assertions.Expect(visit.Page.GetByLabel("Line", new() { Exact = true })).ToHaveValueAsync("");
    }
}
