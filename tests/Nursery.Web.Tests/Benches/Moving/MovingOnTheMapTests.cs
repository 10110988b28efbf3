using Bunit;
using Nursery.Domain.People;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Nursery.Web.Components.Pages.Benches;
using Nursery.Web.Components.Pages.Benches.Moving;
using Nursery.Web.Tests.Pages;
using Xunit;

namespace Nursery.Web.Tests.Benches.Moving;

public sealed class MovingOnTheMapTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    [Fact]
    public async Task Form_BenchThatFits_SaysSoThenMovesThenTakesBack()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.HeadGrower);
        await ReserveAsync(nursery, "W1");
        var page = OpenForm(pages);

        await page.Find(".move select").ChangeAsync("C1");
        page.WaitForAssertion(() => Assert.StartsWith("Fits: bench C1, spaces 1–4, 2 March to", Answer(page), StringComparison.Ordinal));
        await page.Find("form.move").SubmitAsync();

        page.WaitForAssertion(() => Assert.Contains("to bench C1, spaces 1–4, from 2 March", page.Find(".last-move").TextContent, StringComparison.Ordinal));
        page.WaitForAssertion(() => Assert.Empty(page.FindAll("g.set")));
        await page.Find(".last-move button").ClickAsync();
        page.WaitForAssertion(() => Assert.StartsWith("Taken back", page.Find(".last-move span").TextContent, StringComparison.Ordinal));
        page.WaitForAssertion(() => Assert.Contains("bench W1, spaces 1–4", page.Find("g.set").GetAttribute("aria-label"), StringComparison.Ordinal));
    }

    [Fact]
    public async Task Form_SpaceTaken_SaysByWhomAndCannotBeConfirmed()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.HeadGrower);
        var holder = await ReserveAsync(nursery, "C1");
        await ReserveAsync(nursery, "W1");
        var page = OpenForm(pages);

        await page.Find(".move select").ChangeAsync("C1");
        await page.Find(".move input[type=number]").InputAsync("2");

        page.WaitForAssertion(() => Assert.Contains($"are held by {holder} until 12 March 2026", Answer(page), StringComparison.Ordinal));
        Assert.True(page.Find(".move button[type=submit]").HasAttribute("disabled"));
    }

    [Fact]
    public async Task Form_ZoneTooCold_SaysBothTemperaturesInTheSitesUnit()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.HeadGrower);
        await ReserveAsync(nursery, "W1");
        var page = OpenForm(pages);

        await page.Find(".move select").ChangeAsync("G1");
        await page.Find(".move input[type=number]").InputAsync("21");

        page.WaitForAssertion(() => Assert.Equal(
            "Too cold: zone Z60 is set to 60 °F, Pepper germinates at 65–95 °F.", Answer(page).Replace('\u00A0', ' ')));
    }

    [Fact]
    public async Task Drag_OverThenDrop_AnswersBeforeItMoves()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.HeadGrower);
        await ReserveAsync(nursery, "W1");
        var page = pages.Render<BenchesPage>();
        page.WaitForElement("g.set[data-reservation]");
        var layer = page.FindComponent<DragLayer>();
        var (layout, id) = (layer.Instance.Layout, Guid.Parse(page.Find("g.set").GetAttribute("data-reservation")!));
        var from = layout.Benches.Single(bench => bench.Bench.Code == "W1").Geometry.Space(1);
        var heat = layout.Benches.Single(bench => bench.Bench.Code == "G1").Geometry;

        await page.InvokeAsync(() => layer.Instance.DragAsync(id, from.CenterX, from.CenterY, heat.Space(21).CenterX, heat.Space(21).CenterY));
        Assert.StartsWith("Too cold", layer.Find(".drag-words").TextContent.Trim(), StringComparison.Ordinal);
        Assert.NotEmpty(layer.FindAll("path.refused"));

        await page.InvokeAsync(() => layer.Instance.DragAsync(id, from.CenterX, from.CenterY, heat.Space(5).CenterX, heat.Space(5).CenterY));
        Assert.StartsWith("Fits: bench G1, spaces 5–8", layer.Find(".drag-words").TextContent.Trim(), StringComparison.Ordinal);
        await page.InvokeAsync(() => layer.Instance.DropAsync(true));

        page.WaitForAssertion(() => Assert.Contains("bench G1, spaces 5–8", page.Find("g.set").GetAttribute("aria-label"), StringComparison.Ordinal));
    }

    [Fact]
    public async Task Drag_Escape_MovesNothing()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.HeadGrower);
        await ReserveAsync(nursery, "W1");
        var page = pages.Render<BenchesPage>();
        var id = Guid.Parse(page.WaitForElement("g.set").GetAttribute("data-reservation")!);
        var layer = page.FindComponent<DragLayer>();
        var bench = layer.Instance.Layout.Benches.Single(bench => bench.Bench.Code == "W1").Geometry;

        await page.InvokeAsync(() => layer.Instance.DragAsync(
            id, bench.Space(1).CenterX, bench.Space(1).CenterY, bench.Space(9).CenterX, bench.Space(9).CenterY));
        await page.InvokeAsync(() => layer.Instance.DropAsync(false));

        Assert.Empty(page.FindAll(".last-move"));
        Assert.Contains("spaces 1–4", page.Find("g.set").GetAttribute("aria-label"), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(Role.Staff)]
    [InlineData(Role.Manager)]
    public async Task Page_WithoutTheRight_OffersNoMove(Role role)
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, role);
        await ReserveAsync(nursery, "W1");

        var page = pages.Render<BenchesPage>();
        page.WaitForElement("g.set").Click();

        page.WaitForElement(".selected-tag dl");
        Assert.Empty(page.FindAll(".open-form"));
        Assert.Empty(page.FindComponents<DragLayer>());
    }

    private static IRenderedComponent<BenchesPage> OpenForm(NurseryPages pages)
    {
        var page = pages.Render<BenchesPage>();
        page.WaitForElement("g.set[aria-label*='bench W1']").Click();
        page.WaitForElement(".open-form").Click();
        page.WaitForElement("form.move");

        // The form asks about the place it opens with; until it has heard, it is drawn anew under a test's hands.
        page.WaitForAssertion(() => Assert.NotEqual("Asking …", Answer(page)));
        return page;
    }

    private static string Answer(IRenderedComponent<BenchesPage> page) => page.Find(".move [role=status]").TextContent;

    /// <returns>The code of four trays of pepper, in that place for ten days.</returns>
    private static async Task<string> ReserveAsync(TestNursery nursery, string bench)
    {
        var batch = await nursery.PlanAsync(nursery.Pepper, trays: 4);
        await nursery.ReserveAsync(batch, bench, 1, nursery.Today, nursery.Today.PlusDays(10));
        return batch.TraySetCode;
    }
}
