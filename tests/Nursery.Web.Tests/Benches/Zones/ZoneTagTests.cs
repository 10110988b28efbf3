using Bunit;
using Nursery.Domain.People;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Nursery.Web.Components.Pages.Benches;
using Nursery.Web.Tests.Pages;
using Xunit;

namespace Nursery.Web.Tests.Benches.Zones;

public sealed class ZoneTagTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    [Fact]
    public async Task Zone_Chosen_ShowsWhoLiesThereAndTheBandAllAccept()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.Manager);
        var pepper = await nursery.PlanAsync(nursery.Pepper);
        await nursery.ReserveAsync(pepper, "G1", 1, nursery.Today, nursery.Today.PlusDays(6));

        var page = Open(pages);

        Assert.Contains($"{pepper.TraySetCode} Pepper", Text(page, ".lying"), StringComparison.Ordinal);
        Assert.Equal("All of them germinate at 65–95 °F.", Text(page, ".band"));
        Assert.Empty(page.FindAll(".zone-tag form"));
    }

    [Fact]
    public async Task Set_HarmsSeedLyingThere_IsRefusedWithNames()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.HeadGrower);
        var pepper = await nursery.PlanAsync(nursery.Pepper);
        await nursery.ReserveAsync(pepper, "G1", 1, nursery.Today, nursery.Today.PlusDays(6));
        var page = Open(pages);

        await page.Find(".zone-tag input[type=number]").ChangeAsync("60");
        await page.Find(".zone-tag form").SubmitAsync();

        page.WaitForAssertion(() => Assert.Equal(
            $"Zone Z80 cannot be set to 60 °F: {pepper.TraySetCode} Pepper needs 65–95 °F.", Text(page, ".zone-tag [role=alert]")));
    }

    [Fact]
    public async Task Set_ForSomeDays_IsInTheProgramAndInTheListOfZones()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.HeadGrower);
        var page = Open(pages);

        await page.Find(".zone-tag input[type=number]").ChangeAsync("75");
        await page.FindAll(".zone-tag input[type=date]")[1].ChangeAsync("2026-03-06");
        await page.Find(".zone-tag form").SubmitAsync();

        page.WaitForAssertion(() => Assert.Contains("2 March to 6 March: 75 °F", Text(page, ".zone-tag ul"), StringComparison.Ordinal));
        page.WaitForAssertion(() => Assert.Contains("75 °F", Text(page, ".zones button[aria-pressed=true]"), StringComparison.Ordinal));
    }

    private static IRenderedComponent<BenchesPage> Open(NurseryPages pages)
    {
        var page = pages.Render<BenchesPage>();
        page.WaitForElement(".zones button");
        page.FindAll(".zones button").Single(button => button.TextContent.Contains("Z80", StringComparison.Ordinal)).Click();
        page.WaitForElement(".zone-tag h2");
        return page;
    }

    private static string Text(IRenderedComponent<BenchesPage> page, string selector) =>
        string.Join(' ', page.Find(selector).TextContent.Replace('\u00A0', ' ').Split((char[])[' ', '\n', '\r'], StringSplitOptions.RemoveEmptyEntries));
}
