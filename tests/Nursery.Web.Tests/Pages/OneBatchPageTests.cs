using Bunit;
using Microsoft.EntityFrameworkCore;
using Nursery.Application.Batches;
using Nursery.Application.Rounds;
using Nursery.Domain.Ledger;
using Nursery.Domain.People;
using Nursery.Domain.Tasks;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Nursery.Web.Components.Pages.Batches;
using Xunit;

namespace Nursery.Web.Tests.Pages;

public sealed class OneBatchPageTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    [Theory]
    [InlineData("G1", "21", "Zone Z60 is set to 60 °F, too cold for Pepper: it germinates from 65 °F to 95 °F.")]
    [InlineData("W1", "40", "first space is ‘40’; allowed: 1–39: 2 spaces on bench W1 of 40.")]
    public async Task Reserve_Refused_SaysWhyAndKeepsWhatWasTyped(string bench, string first, string sentence)
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.HeadGrower);
        var batch = await nursery.PlanAsync(nursery.Pepper);
        var page = pages.Render<OneBatchPage>(parameters => parameters.Add(row => row.Id, batch.Id));

        await ReserveAsync(page, bench, first);

        page.WaitForAssertion(() => Assert.Equal(sentence, page.Find("[role=alert] p").TextContent));
        Assert.Equal(first, page.Find("#first").GetAttribute("value"));
        Assert.Equal(bench, page.Find("#bench").GetAttribute("value"));
    }

    [Fact]
    public async Task Unshare_SharedAndNotSown_TakesItOutAndSaysWhatFollows()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.HeadGrower);
        var pepper = await nursery.PlanAsync(nursery.Pepper, trays: 1, inDays: 3);
        var tomato = await nursery.PlanAsync(nursery.Tomato, trays: 1, inDays: 3);
        await nursery.Get<ShareTrays>().HandleAsync(new ShareTraysRequest([new(pepper.Id, 1, 4), new(tomato.Id, 1, 8)]), nursery.HeadGrower);
        var page = pages.Render<OneBatchPage>(parameters => parameters.Add(row => row.Id, tomato.Id));
        var button = page.WaitForElement("h2 ~ .actions button");
        Assert.Equal("Take it out of the shared trays", button.TextContent);

        await button.ClickAsync(new());

        page.WaitForAssertion(() => Assert.StartsWith(
            $"It has trays of its own: {tomato.TraySetCode}, 1 tray, 72 cells. {pepper.TraySetCode} has 1 tray now, for {pepper.Code}.",
            page.Find(".said").TextContent, StringComparison.Ordinal));
        Assert.DoesNotContain("In the same trays", page.Markup, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Reserve_HeldByAnother_NamesItAndTheDayItIsFree()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.HeadGrower);
        var other = await nursery.PlanAsync(nursery.Pepper);
        await nursery.ReserveAsync(other, "W1", 3, nursery.Today, nursery.Today.PlusDays(10));
        var batch = await nursery.PlanAsync(nursery.Pepper);
        var page = pages.Render<OneBatchPage>(parameters => parameters.Add(row => row.Id, batch.Id));

        await ReserveAsync(page, "W1", "4");

        page.WaitForAssertion(() => Assert.Equal(
            $"Spaces 4–5 of bench W1 are held by {other.TraySetCode} until 12 March 2026.", page.Find("[role=alert] p").TextContent));

        await page.InvokeAsync(() => page.Find("#first").Change("5"));
        await page.InvokeAsync(() => page.Find("details button").Click());
        page.WaitForAssertion(() => Assert.Contains("Bench W1, spaces 5–6, held from", page.Find(".said").TextContent, StringComparison.Ordinal));
        page.WaitForAssertion(() => Assert.Contains("spaces 5–6", page.Find(".scroll table").TextContent, StringComparison.Ordinal));
    }

    [Fact]
    public async Task Sow_TreatedLot_WarnsAndSows()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.Staff);
        await TreatAsync(nursery);
        var batch = await nursery.PlanAsync(nursery.Pepper);
        var page = pages.Render<OneBatchPage>(parameters => parameters.Add(row => row.Id, batch.Id));

        page.WaitForElement("#lot");
        Assert.Contains("never food or feed", page.Find(".caution").TextContent, StringComparison.Ordinal);
        Assert.Empty(page.FindAll("#bench"));
        page.FindAll("button").Single(button => button.TextContent == "Report sown").Click();

        page.WaitForAssertion(() => Assert.Contains($"Sown on 2 March 2026 from lot {nursery.PepperLot.Code}", page.Find(".said").TextContent, StringComparison.Ordinal));
        page.WaitForAssertion(() => Assert.StartsWith("stagesown", Words(page.Find(".tag .facts").TextContent), StringComparison.Ordinal));
        Assert.Equal(100_000 - 144, await nursery.StockAsync(nursery.PepperLot));
        page.WaitForAssertion(() => Assert.Empty(page.FindAll("#lot")));
    }

    [Fact]
    public async Task Sow_StockTooLow_SaysTheNumbers()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.Staff);
        var batch = await nursery.PlanAsync(nursery.Tomato, trays: 14);
        var page = pages.Render<OneBatchPage>(parameters => parameters.Add(row => row.Id, batch.Id));

        page.WaitForElement("#lot");
        page.FindAll("button").Single(button => button.TextContent == "Report sown").Click();

        // 14 trays of 72 cells want 1,008 seeds of the lot's 1,000.
        page.WaitForAssertion(() => Assert.Equal(
            $"Lot {nursery.TomatoLot.Code} has 1000 seeds in stock, 1008 needed.", page.Find("[role=alert] p").TextContent));
    }

    [Fact]
    public async Task Story_EntryTakenBack_IsStruckThrough()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.Manager);
        var batch = await nursery.PlanAsync(nursery.Pepper);
        await nursery.SowAsync(batch);
        var count = await nursery.RecordAsync(new PlantsCounted(batch.Id, CountWhat.Seedlings, 5, null, 72, true));
        await nursery.RecordAsync(new EntryUndone(count));

        var page = pages.Render<OneBatchPage>(parameters => parameters.Add(row => row.Id, batch.Id));

        var struck = page.WaitForElement(".story s");
        Assert.Contains("counted 5 seedlings in 72 cells, a sample", struck.TextContent, StringComparison.Ordinal);
        Assert.Contains("taken back", struck.ParentElement!.TextContent, StringComparison.Ordinal);
        Assert.Contains("took back: counted 5 seedlings", page.Find(".story").TextContent, StringComparison.Ordinal);
        Assert.Empty(page.FindAll("#lot, #bench"));
    }

    [Fact]
    public async Task Page_NoSuchBatch_SaysSo()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.Manager);

        var page = pages.Render<OneBatchPage>(parameters => parameters.Add(row => row.Id, Guid.Empty));

        Assert.Contains("There is no batch", page.WaitForElement("[role=alert]").TextContent, StringComparison.Ordinal);
    }

    /// <summary>Each step on the page's own thread: what it loads later draws it again in between.</summary>
    private static async Task ReserveAsync(IRenderedComponent<OneBatchPage> page, string bench, string first)
    {
        page.WaitForElement("#bench");
        await page.InvokeAsync(() => page.Find("#bench").Change(bench));
        await page.InvokeAsync(() => page.Find("#first").Change(first));
        await page.InvokeAsync(() => page.Find("details button").Click());
    }

    private static string Words(string text) => string.Concat(text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));

    private static async Task TreatAsync(TestNursery nursery)
    {
        await using var rows = await nursery.DatabaseAsync();
        var id = nursery.PepperLot.Id;
        (await rows.SeedLots.SingleAsync(lot => lot.Id == id)).Treated = true;
        await rows.SaveChangesAsync();
    }
}
