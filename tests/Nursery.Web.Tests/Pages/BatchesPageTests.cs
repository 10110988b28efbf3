using Bunit;
using Microsoft.Extensions.DependencyInjection;
using Nursery.Application.Reservations;
using Nursery.Domain.People;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Nursery.Web.Components.Pages.Batches;
using Xunit;

namespace Nursery.Web.Tests.Pages;

public sealed class BatchesPageTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    [Fact]
    public async Task PlaceAll_OneFitsOneDoesNot_SaysHowManyAndWhy()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.HeadGrower);
        await nursery.PlanAsync(nursery.Pepper, trays: 2, inDays: 1);
        var large = await nursery.PlanAsync(nursery.Pepper, trays: 30, inDays: 2);
        var page = pages.Render<BatchesPage>();
        page.WaitForElement("table");

        page.WaitForAssertion(() => Assert.False(PlaceAll(page).HasAttribute("disabled")));
        PlaceAll(page).Click();

        page.WaitForAssertion(() => Assert.Contains("Waiting to begin", page.Find("[aria-label=Placing]").TextContent, StringComparison.Ordinal));
        Assert.NotNull(page.Find("progress"));
        await pages.Services.GetRequiredService<JobsAtOnce>().WorkAsync();
        NurseryPages.Look(page, nursery, () => Assert.Contains("1 batch placed", page.Find(".said").TextContent, StringComparison.Ordinal));
        var why = page.Find("[aria-label='Not placed, and why']").TextContent;
        Assert.Contains(large.Code, why, StringComparison.Ordinal);
        Assert.Contains("No zone that suits Pepper has 30 spaces in a row", why, StringComparison.Ordinal);
        Assert.Contains("G1", page.Find("[aria-label='What was placed where']").TextContent, StringComparison.Ordinal);
        page.WaitForAssertion(() => Assert.Contains("2 batches, 1 planned without a place", page.Markup, StringComparison.Ordinal));
    }

    [Fact]
    public async Task PlaceAll_SomeoneElseStartedAndThePageIsReloaded_SeesItAndStopsIt()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.HeadGrower);
        await nursery.PlanAsync(nursery.Pepper, trays: 2, inDays: 1);
        var page = pages.Render<BatchesPage>();
        page.WaitForElement("table");

        await nursery.Get<StartPlacing>().HandleAsync(nursery.Administrator);
        NurseryPages.Look(page, nursery, () => Assert.Contains($"Started by {nursery.Administrator.Name}", page.Find("[aria-label=Placing]").TextContent, StringComparison.Ordinal));
        Assert.True(page.FindAll("button").Single(button => button.TextContent.StartsWith("Place all", StringComparison.Ordinal)).HasAttribute("disabled"));

        var reloaded = pages.Render<BatchesPage>();
        reloaded.WaitForElement("[aria-label=Placing] button").Click();

        reloaded.WaitForAssertion(() => Assert.Contains("was stopped after 0 of 1", reloaded.Find(".said").TextContent, StringComparison.Ordinal));
        NurseryPages.Look(page, nursery, () => Assert.Contains("was stopped after 0 of 1", page.Find(".said").TextContent, StringComparison.Ordinal));
    }

    [Fact]
    public async Task Page_NoBatches_SaysHowToStart()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.Manager);

        var page = pages.Render<BatchesPage>();

        Assert.Contains("no batches yet", page.WaitForElement(".empty").TextContent, StringComparison.Ordinal);
        Assert.Empty(page.FindAll("a[href='/batches/new']"));
    }

    [Fact]
    public async Task New_TwoValuesWrong_ListsBothAndKeepsThem()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.HeadGrower);
        var page = pages.Render<NewBatchPage>();
        page.WaitForElement("#variety option:nth-child(2)");
        page.Find("#variety").Change(nursery.Pepper.Code);

        page.WaitForElement("#trays").Change("0");
        page.Find("#seeds").Change("51");
        page.FindAll("button").Single(button => button.TextContent == "Plan this batch").Click();

        page.WaitForAssertion(() => Assert.Equal(2, page.FindAll("[role=alert] tbody tr").Count));
        Assert.Contains("seeds per cell", page.Find("[role=alert]").TextContent, StringComparison.Ordinal);
        Assert.Equal("51", page.Find("#seeds").GetAttribute("value"));
    }

    private static AngleSharp.Dom.IElement PlaceAll(IRenderedComponent<BatchesPage> page) =>
        page.FindAll("button").Single(button => button.TextContent == "Place all without a place (2)");
}
