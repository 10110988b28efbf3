using System.Globalization;
using Microsoft.Playwright;
using Nursery.Browser.Tests.App;

namespace Nursery.Browser.Tests.Benches;

/// <summary>The benches screen as a person finds their way on it, with a real mouse.</summary>
internal sealed class BenchesScreen(Visit visit, NurseryApp app)
{
    public IPage Page => visit.Page;

    /// <summary>What stands by the pointer while trays are dragged.</summary>
    public ILocator Words => Page.Locator(".drag-words");

    /// <summary>What was done or refused last.</summary>
    public ILocator Said => Page.Locator(".last-move");

    public static async Task<BenchesScreen> OpenAsync(Visit visit, NurseryApp app, string house)
    {
        await visit.OpenAsync($"/benches?house={house}");

        // Following the pointer is ready a moment after the map is drawn.
        await visit.Page.Locator(".map-scroll.can-move").WaitForAsync();
        return new BenchesScreen(visit, app);
    }

    public ILocator Trays(Guid reservation) => Page.Locator($".set[data-reservation='{reservation}']");

    /// <summary>Where a space of a bench lies in the window.</summary>
    public async Task<(float X, float Y)> SpaceAsync(string bench, int space)
    {
        var shape = (await app.SqlAsync<string>($"SELECT name || '|' || rows || '|' || capacity FROM benches WHERE code = '{bench}'")).Split('|');
        var (rows, capacity) = (Number(shape[1]), Number(shape[2]));
        var top = Page.Locator($".bench[aria-label^='{shape[0]},'] > .top");
        await top.ScrollIntoViewIfNeededAsync();
        var box = (await top.BoundingBoxAsync())!;
        var columns = (capacity + rows - 1) / rows;
        return (
            box.X + (box.Width * ((((space - 1) / rows) + 0.5f) / columns)),
            box.Y + (box.Height * ((((space - 1) % rows) + 0.5f) / rows)));
    }

    /// <summary>Takes hold of trays by one of their spaces and draws them to another place; the button stays down.</summary>
    public async Task DragAsync(string fromBench, int fromSpace, string toBench, int toSpace)
    {
        var (x, y) = await SpaceAsync(fromBench, fromSpace);
        await Page.Mouse.MoveAsync(x, y);
        await Page.Mouse.DownAsync();
        var to = await SpaceAsync(toBench, toSpace);
        await Page.Mouse.MoveAsync(to.X, to.Y, new() { Steps = 8 });
    }

    /// <summary>Presses Tab until the keyboard is on something.</summary>
    public async Task TabToAsync(string selector)
    {
        const int MostStops = 150;
        for (var stops = 0; stops < MostStops; stops++)
        {
            await Page.Keyboard.PressAsync("Tab");
            if (await Page.EvaluateAsync<bool>("selector => document.activeElement.matches(selector)", selector))
            {
                return;
            }
        }

        throw new TimeoutException($"{MostStops} presses of Tab did not reach {selector}");
    }

    private static int Number(string text) => int.Parse(text, CultureInfo.InvariantCulture);
}
