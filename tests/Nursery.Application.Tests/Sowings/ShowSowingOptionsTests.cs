using Microsoft.EntityFrameworkCore;
using Nursery.Application.Batches;
using Nursery.Application.Sowings;
using Nursery.Application.Tests.Forecasts;
using Nursery.Domain.Ledger;
using Nursery.Domain.Refusals;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Application.Tests.Sowings;

public sealed class ShowSowingOptionsTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    [Fact]
    public async Task HandleAsync_Order_ShowsAllWaysSideBySideInWholeTrays()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlannedForOrderAsync(100, 90);

        var choices = await nursery.Get<ShowSowingOptions>().HandleAsync(batch.Code, nursery.Staff);

        Assert.Equal((100, 0.95, true), (choices.Wanted, choices.Confidence, choices.CanChange));
        Assert.Equal([1, 2, 3, 4, 5], choices.Ways.Select(way => way.SeedsPerCell));
        Assert.All(choices.Ways, way =>
        {
            Assert.True(way.ChanceOfFewest >= 0.95 && way.Chance >= way.ChanceOfFewest);
            Assert.Equal((way.FewestCells + 71) / 72, way.Trays);
            Assert.Equal((72 * way.Trays, 72L * way.Trays * way.SeedsPerCell), (way.Cells, way.Seeds));
            Assert.Equal(way.Seeds / (double)nursery.PepperLot.SeedsPerGram, way.Grams!.Value, 9);
        });

        // Seed of 0.746: 179 and 131 cells by a plain double sum over chance and survival, with correlation 0.05 and trays lost.
        Assert.InRange(choices.Seed!.Value, 0.74, 0.75);
        Assert.Equal([179, 131], choices.Ways.Take(2).Select(way => way.FewestCells));
        Assert.Equal(choices.Ways.Where(way => way.Suits).Min(way => way.Cost), Assert.Single(choices.Ways, way => way.Cheapest).Cost);

        var patch = choices.Patch!;
        Assert.True(patch is { Chance: >= 0.95, ExpectedMoves: > 10 } && patch.Cells < choices.Ways[0].FewestCells);
        Assert.Equal(patch.ExpectedMoves * 10 / 60, patch.ExpectedMinutes, 9);
        Assert.Equal((1, (72L * patch.Trays) + patch.PatchSeeds), (patch.PatchTrays, patch.Seeds));

        // Seeds at 0.02, trays and the open tray at 5 and heat of 0.05 a day, moves at 18 an hour.
        Assert.Equal(
            (patch.Seeds * 0.02) + ((patch.Trays + 1) * (5 + (0.05 * TestCrops.Pepper().PlannedHeatDays))) + (patch.ExpectedMinutes * 0.3), patch.Cost, 9);

        // As planned: 144 cells of one seed.
        Assert.Equal((1, 144, 2), (choices.Planned!.SeedsPerCell, choices.Planned.Cells, choices.Planned.Trays));
        Assert.InRange(choices.Planned.Chance, 0.59, 0.60);

        // Rule of thumb: 100 ÷ ((1 − 0.20²) × 0.90) = 115.7.
        Assert.Equal((2, 116), (choices.RuleOfThumb!.SeedsPerCell, choices.RuleOfThumb.Cells));
        Assert.InRange(choices.RuleOfThumb.Chance, 0.645, 0.657);
        Assert.True(choices.InsuranceTray!.Chance > choices.Planned.Chance);
        var how = choices.How.Single(one => one.What.StartsWith("chance of 100", StringComparison.Ordinal));
        Assert.Contains(how.Inputs, input => input is { Name: "chance asked for", Value: "95", Unit: "%" });
        Assert.Contains(how.Inputs, input => input.Name == "price of 1,000 seeds" && input.From == "from memory");
    }

    [Fact]
    public async Task HandleAsync_TermsOfSiteAndCrop_AreUsedAndNamed()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlannedForOrderAsync(100, 90);
        var usual = await nursery.Get<ShowSowingOptions>().HandleAsync(batch.Code, nursery.Staff);
        await using (var rows = await nursery.DatabaseAsync())
        {
            var site = await rows.Sites.SingleAsync(row => row.Id == nursery.At.Site.Id);
            (site.SowingConfidence, site.TrayLoss, site.SeedPrice, site.TrayPrice) = (0.5m, 0, 200, 1);
            await rows.SaveChangesAsync();
        }

        var choices = await nursery.Get<ShowSowingOptions>().HandleAsync(batch.Id.ToString(), nursery.Staff);

        Assert.True(choices.Ways[0].FewestCells < usual.Ways[0].FewestCells);
        Assert.InRange(choices.Ways[0].ChanceOfFewest, 0.5, 0.55);

        // Two trays of 72 seeds at 0.20, 1 each and heat at 0.05 a day.
        Assert.Equal((144 * 0.2) + (2 * (1 + (0.05 * TestCrops.Pepper().PlannedHeatDays))), choices.Planned!.Cost, 9);
        Assert.Contains(choices.How[0].Inputs, input => input is { Name: "price of 1,000 seeds", Value: "200", From: "Setup, site" });
    }

    [Fact]
    public async Task Choose_AnotherWay_IsInThePlanAndTheStory()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlannedForOrderAsync(100, 90);
        var choices = await nursery.Get<ShowSowingOptions>().HandleAsync(batch.Code, nursery.Staff);
        var two = choices.Ways[1];

        var change = await nursery.Get<ChangeBatch>().HandleAsync(
            new ChangeBatchRequest(batch.Id, choices.Version, two.Trays, null, null, 2), nursery.HeadGrower);

        Assert.Contains("2 seeds a cell instead of 1: 288 seeds to take", change.Follows);
        Assert.Contains(change.Follows, sentence => sentence.StartsWith("The 100 plants ordered come with a chance of", StringComparison.Ordinal));
        var page = await nursery.Get<ShowBatch>().HandleAsync(batch.Id, nursery.Staff);
        Assert.Equal((2, 2), (page.Batch.SeedsPerCell, page.Batch.Trays));
        Assert.Equal(2, page.Story.Select(line => line.Value).OfType<BatchReplanned>().Single().SeedsPerCell);
        var after = await nursery.Get<ShowSowingOptions>().HandleAsync(batch.Code, nursery.Staff);
        Assert.Equal((2, two.Chance, two.Cost), (after.Planned!.SeedsPerCell, after.Planned.Chance, after.Planned.Cost));
    }

    [Fact]
    public async Task HandleAsync_NoOrderSownOrUnknown_HasNoWaysOrIsRefused()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var plain = await nursery.Get<ShowSowingOptions>().HandleAsync((await nursery.PlanAsync(nursery.Pepper)).Code, nursery.Staff);
        Assert.Equal((0, 0, true), (plain.Wanted, plain.Ways.Count, plain.CanChange));
        Assert.Null(plain.Planned);
        var sown = await nursery.Get<ShowSowingOptions>().HandleAsync((await nursery.SownForOrderAsync(50, 90)).Code, nursery.Staff);
        Assert.False(sown.CanChange);
        Assert.Null(sown.Risk);
        await Assert.ThrowsAsync<NotFound>(() => nursery.Get<ShowSowingOptions>().HandleAsync("none", nursery.Staff));
    }
}
