using Bunit;
using Nursery.Application.Rounds;
using Nursery.Domain.Ledger;
using Nursery.Domain.People;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Nursery.Web.Components.Pages.Germination;
using Xunit;

namespace Nursery.Web.Tests.Pages;

public sealed class GerminationPageTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    [Fact]
    public async Task Page_TwoCountedBatches_ShowsRateAndSpread()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.Manager);
        await CountedAsync(nursery, 72);
        await CountedAsync(nursery, 130);

        var page = pages.Render<GerminationPage>();

        // (72 + 130) / 288 = 70.14 %; the batches' own 50.00 % and 90.28 % lie 40.28 points apart, and of two values
        // the standard deviation with n − 1 (NIST/SEMATECH e-Handbook 1.3.5.6) is their distance ÷ √2 = 28.48.
        page.WaitForElement("table");
        var cells = page.FindAll("tbody td").Select(cell => cell.TextContent.Trim()).ToList();
        Assert.Equal(["Pepper", "2", "288", "202", "70.1 %", "± 28.5 points"], cells[..6]);
        Assert.Contains("70.1 % of 288 seeds counted in 2 batches", page.Find(".head").TextContent, StringComparison.Ordinal);

        page.Find("#to").Change("2026-03-01");
        page.WaitForAssertion(() => Assert.Contains("No batch sown in these days", page.Find(".empty").TextContent, StringComparison.Ordinal));
        page.Find("#to").Change("2026-03-02");
        page.WaitForElement("table");
        page.Find("#by").Change("Lot");
        page.WaitForAssertion(() => Assert.Contains(nursery.PepperLot.Code, page.Find("tbody").TextContent, StringComparison.Ordinal));
    }

    [Fact]
    public async Task Page_NothingCounted_SaysWhenARateAppears()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.Manager);

        var page = pages.Render<GerminationPage>();

        Assert.Contains("first count", page.WaitForElement(".empty").TextContent, StringComparison.Ordinal);
        Assert.Contains("standard deviation", page.Find("details").TextContent, StringComparison.Ordinal);
    }

    /// <summary>Two trays of 72 cells, a seed each, sown and counted whole.</summary>
    private static async Task CountedAsync(TestNursery nursery, int seedlings)
    {
        var batch = await nursery.PlanAsync(nursery.Pepper);
        await nursery.SowAsync(batch);
        await nursery.RecordAsync(new PlantsCounted(batch.Id, CountWhat.Seedlings, seedlings, null, null, false));
    }
}
