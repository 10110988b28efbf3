using Microsoft.Playwright;
using Nursery.Browser.Tests.App;
using Xunit;
using static Microsoft.Playwright.Assertions;

namespace Nursery.Browser.Tests.Setup;

/// <summary>Two people with the same row open, each in a browser of their own.</summary>
public sealed class TwoEditorsTests(NurseryApp app) : IClassFixture<NurseryApp>
{
    [Fact]
    public async Task Save_AfterSomeoneElse_ShowsBothValuesAndStoresNothing()
    {
        await using var first = await app.SignInAsAsync("administrator");
        await using var second = await app.SignInAsAsync("head-grower");
        var code = await app.SqlAsync<string>("SELECT code FROM houses ORDER BY code LIMIT 1");
        var (theirs, mine) = (await OpenRowAsync(first, code), await OpenRowAsync(second, code));

        await theirs.GetByLabel("Name").FillAsync("East house");
        await SaveAsync(theirs, "Save");
        await Expect(first.Page.GetByText($"{code} is changed.")).ToBeVisibleAsync();
        await mine.GetByLabel("Name").FillAsync("West house");
        await SaveAsync(mine, "Save");

        var note = mine.GetByRole(AriaRole.Alert);
        await Expect(note).ToContainTextAsync("Someone else changed this");
        await Expect(note.GetByRole(AriaRole.Cell)).ToHaveTextAsync(["Name", "West house", "East house"]);
        Assert.Equal("East house", await NameAsync(code));
        await second.PictureAsync("setup-two-editors");
        await Axe.NothingAsync(second, "two editors");

        await SaveAsync(mine, "Save mine");
        await Expect(second.Page.GetByText($"{code} is changed.")).ToBeVisibleAsync();
        Assert.Equal("West house", await NameAsync(code));
    }

    private Task<string> NameAsync(string code) => app.SqlAsync<string>($"SELECT name FROM houses WHERE code = '{code}'");

    private static async Task<ILocator> OpenRowAsync(Visit visit, string code)
    {
        await visit.OpenAsync("/setup/houses");
        await visit.Page.GetByRole(AriaRole.Button, new() { Name = code, Exact = true }).ClickAsync();
        return visit.Page.Locator("section.panel");
    }

    private static Task SaveAsync(ILocator form, string words) =>
        form.GetByRole(AriaRole.Button, new() { Name = words, Exact = true }).ClickAsync();
}
