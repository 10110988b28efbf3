using Nursery.Browser.Tests.App;
using Xunit;
using static Microsoft.Playwright.Assertions;

namespace Nursery.Browser.Tests.Benches;

/// <summary>The whole way without a mouse.</summary>
public sealed class KeyboardTests(NurseryApp app) : IClassFixture<NurseryApp>
{
    [Fact]
    public async Task Move_ByKeyboardOnly_IsAnsweredDoneAndTakenBack()
    {
        await using var visit = await app.SignInAsAsync("head-grower");
        var trays = await HeldTrays.ThatFitElsewhereAsync(app);
        var screen = await BenchesScreen.OpenAsync(visit, app, trays.House);
        var keys = screen.Page.Keyboard;
        var name = await app.SqlAsync<string>($"SELECT name FROM benches WHERE code = '{trays.ToBench}'");

        await screen.TabToAsync($".set[data-reservation='{trays.Reservation}']");
        await keys.PressAsync("Enter");
        await Expect(screen.Page.Locator(".selected-tag .codes")).ToHaveTextAsync(trays.Code);
        await screen.TabToAsync(".open-form");
        await keys.PressAsync("Enter");

        // The form opens with the keyboard on the bench.
        var form = screen.Page.Locator("form.move");
        await Expect(form.GetByLabel("to bench")).ToBeFocusedAsync();
        await keys.TypeAsync(name);
        await Expect(form.GetByLabel("to bench")).ToHaveValueAsync(trays.ToBench);
        await Expect(form.Locator("[role=status]")).ToContainTextAsync($"Fits: bench {trays.ToBench}");
        await visit.PictureAsync("benches-move-form");
        await screen.TabToAsync("form.move button[type=submit]");
        await keys.PressAsync("Enter");

        await Expect(screen.Said).ToContainTextAsync($"{trays.Code} to bench {trays.ToBench}");
        await Expect(screen.Said).ToBeFocusedAsync();
        await keys.PressAsync("Control+z");
        await Expect(screen.Said).ToContainTextAsync("Taken back");
        Assert.Equal(0, await app.SqlAsync<int>(
            $"SELECT count(*) FROM reservations r JOIN benches b ON b.id = r.bench_id JOIN tray_sets t ON t.id = r.tray_set_id WHERE t.code = '{trays.Code}' AND b.code = '{trays.ToBench}'"));
    }

    [Fact]
    public async Task Zone_ByKeyboardOnly_OpensItsTag()
    {
        await using var visit = await app.SignInAsAsync("head-grower");
        var house = await app.SqlAsync<string>("SELECT h.code FROM heat_zones z JOIN benches b ON b.id = z.bench_id JOIN houses h ON h.id = b.house_id ORDER BY z.code LIMIT 1");
        var screen = await BenchesScreen.OpenAsync(visit, app, house);

        await screen.TabToAsync(".plate");
        await screen.Page.Keyboard.PressAsync("Space");

        await Expect(screen.Page.Locator(".zone-tag h2")).ToContainTextAsync("Heat zone");
    }
}
