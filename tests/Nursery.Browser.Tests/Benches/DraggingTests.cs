using Microsoft.Playwright;
using Nursery.Browser.Tests.App;
using Xunit;
using static Microsoft.Playwright.Assertions;

namespace Nursery.Browser.Tests.Benches;

/// <summary>Trays drawn over the map with a real mouse.</summary>
public sealed class DraggingTests(NurseryApp app) : IClassFixture<NurseryApp>
{
    [Fact]
    public async Task Drag_ToFreeSpaces_IsAnsweredThenDoneAndTakenBack()
    {
        await using var visit = await app.SignInAsAsync("head-grower");
        var trays = await HeldTrays.ThatFitElsewhereAsync(app);
        var screen = await BenchesScreen.OpenAsync(visit, app, trays.House);
        var before = await PlanAsync();

        await screen.DragAsync(trays.Bench, trays.First, trays.ToBench, trays.ToSpace);
        await Expect(screen.Words).ToContainTextAsync($"Fits: bench {trays.ToBench}, space");
        Assert.Equal(before, await PlanAsync());
        await screen.Page.Mouse.UpAsync();

        await Expect(screen.Said).ToContainTextAsync($"{trays.Code} to bench {trays.ToBench}, space");
        Assert.Equal(1, await app.SqlAsync<int>(
            $"SELECT count(*) FROM reservations r JOIN benches b ON b.id = r.bench_id JOIN tray_sets t ON t.id = r.tray_set_id WHERE t.code = '{trays.Code}' AND b.code = '{trays.ToBench}' AND lower(r.spaces) = {trays.ToSpace}"));
        await screen.Page.GetByRole(AriaRole.Button, new() { Name = "Undo" }).ClickAsync();
        await Expect(screen.Said).ToContainTextAsync("Taken back");
        Assert.Equal(before, await PlanAsync());
    }

    [Fact]
    public async Task Drag_OntoTakenSpaces_SaysByWhomAndUntilWhenAndChangesNothing()
    {
        await using var visit = await app.SignInAsAsync("head-grower");
        var trays = await HeldTrays.ThatFindTheSpacesTakenAsync(app);
        var screen = await BenchesScreen.OpenAsync(visit, app, trays.House);
        var before = await PlanAsync();

        await screen.DragAsync(trays.Bench, trays.First, trays.ToBench, trays.ToSpace);

        await Expect(screen.Words).ToContainTextAsync("Taken.");
        await Expect(screen.Words).ToContainTextAsync(trays.ToBench);
        await Expect(screen.Words).ToContainTextAsync("until");
        await Expect(screen.Words).ToBeVisibleAsync();
        await Expect(screen.Page.Locator(".drag-target .refused")).ToHaveCountAsync(1);
        await visit.PictureAsync("benches-refused-taken");
        await screen.Page.Mouse.UpAsync();
        await Expect(screen.Said).ToContainTextAsync("Not moved. Taken.");
        Assert.Equal(before, await PlanAsync());
    }

    [Fact]
    public async Task Drag_OntoAZoneTooCold_SaysBothTemperaturesAndChangesNothing()
    {
        await using var visit = await app.SignInAsAsync("head-grower");
        var trays = await HeldTrays.ThatWouldLieTooColdAsync(app);
        var screen = await BenchesScreen.OpenAsync(visit, app, trays.House);
        var before = await PlanAsync();

        await screen.DragAsync(trays.Bench, trays.First, trays.ToBench, trays.ToSpace);

        await Expect(screen.Words).ToHaveTextAsync(new System.Text.RegularExpressions.Regex(@"Too cold: zone \S+ is set to [\d.]+ °F, .+ germinates at [\d.]+.+°F"));
        await visit.PictureAsync("benches-refused-cold");
        await screen.Page.Keyboard.PressAsync("Escape");
        await screen.Page.Mouse.UpAsync();
        await Expect(screen.Words).ToBeHiddenAsync();
        Assert.Equal(before, await PlanAsync());
    }

    [Fact]
    public async Task Drag_HeldOverAnotherHouse_GoesThereWithTheTrays()
    {
        await using var visit = await app.SignInAsAsync("head-grower");
        var trays = await HeldTrays.ThatFitInAnotherHouseAsync(app);
        var screen = await BenchesScreen.OpenAsync(visit, app, trays.House);
        var before = await PlanAsync();
        var house = await app.SqlAsync<string>($"SELECT h.code FROM houses h JOIN benches b ON b.house_id = h.id WHERE b.code = '{trays.ToBench}'");

        await screen.DragAsync(trays.Bench, trays.First, trays.Bench, trays.First + 3);
        var tab = (await screen.Page.Locator($"[data-house='{house}']").BoundingBoxAsync())!;
        await screen.Page.Mouse.MoveAsync(tab.X + (tab.Width / 2), tab.Y + (tab.Height / 2), new() { Steps = 5 });
        await Expect(screen.Page.Locator($"[data-house='{house}']")).ToHaveAttributeAsync("aria-pressed", "true");
        var (x, y) = await screen.SpaceAsync(trays.ToBench, trays.ToSpace);
        await screen.Page.Mouse.MoveAsync(x, y, new() { Steps = 8 });
        await Expect(screen.Words).ToContainTextAsync($"Fits: bench {trays.ToBench}, space");
        await visit.PictureAsync("benches-to-another-house");
        await screen.Page.Mouse.UpAsync();

        await Expect(screen.Said).ToContainTextAsync($"{trays.Code} to bench {trays.ToBench}, space");
        await screen.Page.Keyboard.PressAsync("Control+z");
        await Expect(screen.Said).ToContainTextAsync("Taken back");
        Assert.Equal(before, await PlanAsync());
    }

    [Fact]
    public async Task Drop_WhenSomeoneWasFaster_SaysTakenAndChangesNothing()
    {
        var (mine, theirs) = (await HeldTrays.ThatFitElsewhereAsync(app), await OtherToTheSamePlaceAsync());
        await using var slow = await app.SignInAsAsync("head-grower");
        await using var fast = await app.SignInAsAsync("administrator");
        var (slowly, quickly) = (await BenchesScreen.OpenAsync(slow, app, mine.House), await BenchesScreen.OpenAsync(fast, app, theirs.House));
        await slowly.DragAsync(mine.Bench, mine.First, mine.ToBench, mine.ToSpace);
        await Expect(slowly.Words).ToContainTextAsync("Fits:");

        await quickly.DragAsync(theirs.Bench, theirs.First, theirs.ToBench, theirs.ToSpace);
        await Expect(quickly.Words).ToContainTextAsync("Fits:");
        await quickly.Page.Mouse.UpAsync();
        await Expect(quickly.Said).ToContainTextAsync($"{theirs.Code} to bench {theirs.ToBench}");
        var after = await PlanAsync();
        await slowly.Page.Mouse.UpAsync();

        await Expect(slowly.Said).ToContainTextAsync("Not moved. Taken.");
        await Expect(slowly.Said).ToContainTextAsync(theirs.Code);
        await slow.PictureAsync("benches-someone-was-faster");
        Assert.Equal(after, await PlanAsync());
        await quickly.Page.Keyboard.PressAsync("Control+z");
        await Expect(quickly.Said).ToContainTextAsync("Taken back");
    }

    /// <summary>Another tray set, drawn to the very space the first one fits.</summary>
    private async Task<HeldTrays> OtherToTheSamePlaceAsync()
    {
        var first = await HeldTrays.ThatFitElsewhereAsync(app);
        for (var which = 1; which < 50; which++)
        {
            var other = await HeldTrays.ThatFitElsewhereAsync(app, which);
            if (other.Code != first.Code && (other.ToBench, other.ToSpace) == (first.ToBench, first.ToSpace))
            {
                return other;
            }
        }

        throw new InvalidOperationException("No two tray sets of the demo fit the same space");
    }

    /// <summary>The plan without its ids, which an undo may write anew.</summary>
    private Task<string> PlanAsync() => app.SqlAsync<string>(
        "SELECT string_agg(concat_ws(' ', tray_set_id, bench_id, trays, spaces, days), ';' ORDER BY tray_set_id, lower(days), lower(spaces)) FROM reservations");
}
