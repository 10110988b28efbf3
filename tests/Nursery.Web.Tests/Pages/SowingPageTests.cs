using Bunit;
using Microsoft.AspNetCore.Components;
using Microsoft.Extensions.DependencyInjection;
using Nursery.Domain.People;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Nursery.Web.Components.Pages.Sowing;
using Xunit;

namespace Nursery.Web.Tests.Pages;

public sealed class SowingPageTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    [Fact]
    public async Task Page_ThisWeekWithALateOne_SaysWhatToTakeAndHowLate()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.Staff);
        var late = await nursery.PlanAsync(nursery.Pepper, trays: 2, seeds: 2);
        nursery.Clock.Advance(TimeSpan.FromDays(8));
        await nursery.PlanAsync(nursery.Lettuce, trays: 1, inDays: 1);

        var page = pages.Render<SowingPage>();

        page.WaitForElement("table");
        Assert.Contains("2 batches, 3 trays, 360 seeds to sow", page.Find(".head").TextContent, StringComparison.Ordinal);
        var first = page.Find("section[role], section").TextContent;
        Assert.Contains("Late, from days before", first, StringComparison.Ordinal);
        Assert.Contains(late.Code, first, StringComparison.Ordinal);
        Assert.Contains("8 days late", first, StringComparison.Ordinal);
        Assert.Contains("288", first, StringComparison.Ordinal);
        Assert.Contains("no place yet", first, StringComparison.Ordinal);
        Assert.Equal(
            "/api/v1/papers/sowing-sheet.pdf?from=2026-03-09&to=2026-03-15",
            page.FindAll("a").Single(link => link.TextContent == "Print the sowing sheet").GetAttribute("href"));
    }

    [Fact]
    public async Task Page_AnotherWeek_IsEmptyAndLeadsBack()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.Manager);
        await nursery.PlanAsync(nursery.Pepper);
        pages.Services.GetRequiredService<NavigationManager>().NavigateTo("/sowing?from=2026-03-09");

        var page = pages.Render<SowingPage>();

        Assert.Contains("Nothing is to be sown", page.WaitForElement(".empty").TextContent, StringComparison.Ordinal);
        Assert.NotNull(page.Find("a[href='/sowing']"));
        Assert.NotNull(page.Find("a[href='/sowing?from=2026-03-02']"));
    }
}
