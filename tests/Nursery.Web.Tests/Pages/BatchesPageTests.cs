using Bunit;
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

        page.FindAll("button").Single(button => button.TextContent == "Place all without a place (2)").Click();

        page.WaitForAssertion(() => Assert.Contains("1 batch placed", page.Find(".said").TextContent, StringComparison.Ordinal));
        var why = page.Find("table").TextContent;
        Assert.Contains(large.Code, why, StringComparison.Ordinal);
        Assert.Contains("No zone that suits Pepper has 30 spaces in a row", why, StringComparison.Ordinal);
        page.WaitForAssertion(() => Assert.Contains("2 batches, 1 planned without a place", page.Markup, StringComparison.Ordinal));
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
}
