using Nursery.Application.Germination;
using Nursery.Application.Rounds;
using Nursery.Domain.Ledger;
using Nursery.Domain.Refusals;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Application.Tests.Germination;

public sealed class GerminationByKeyTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    [Fact]
    public async Task HandleAsync_ByCrop_EqualsTheSumByHand()
    {
        await using var nursery = await CountedAsync();

        var items = await nursery.Get<GerminationByKey>().HandleAsync(new(GerminationKey.Crop), nursery.Manager);

        // Pepper: 60 of 100 and 72 of 80; 132/180; spread of 0.6 and 0.9 = 0.3/√2. Lettuce: 45 of 50.
        Assert.Equal(["LE", "PE"], items.Select(item => item.Key));
        Assert.Equal((1, 50L, 45m, 0.9m), (items[0].Batches, items[0].Seeds, items[0].Emerged, items[0].Fraction));
        Assert.Null(items[0].FractionSpread);
        Assert.Equal((2, 180L, 132m), (items[1].Batches, items[1].Seeds, items[1].Emerged));
        Assert.Equal(132.0 / 180, (double)items[1].Fraction, 1e-12);
        Assert.Equal(0.21213203435596426, items[1].FractionSpread!.Value, 1e-12);
    }

    [Fact]
    public async Task HandleAsync_ByVarietyLotHouse_GroupTheSameBatches()
    {
        await using var nursery = await CountedAsync();
        var germination = nursery.Get<GerminationByKey>();

        Assert.Equal(
            [(nursery.Lettuce.Code, 50L), (nursery.Pepper.Code, 180L)],
            (await germination.HandleAsync(new(GerminationKey.Variety), nursery.Manager)).Select(item => (item.Key, item.Seeds)));
        Assert.Equal(
            [(nursery.LettuceLot.Code, 50L), (nursery.PepperLot.Code, 180L)],
            (await germination.HandleAsync(new(GerminationKey.Lot), nursery.Manager)).Select(item => (item.Key, item.Seeds)));

        // One pepper batch first stood in house 1, one was carried to house 2 later, lettuce was only ever moved by hand to house 2.
        Assert.Equal(
            [("H1", 180L), ("H2", 50L)],
            (await germination.HandleAsync(new(GerminationKey.House), nursery.Manager)).Select(item => (item.Key, item.Seeds)));
    }

    [Fact]
    public async Task HandleAsync_Days_CountFromInclusiveToExclusive()
    {
        await using var nursery = await CountedAsync();
        var germination = nursery.Get<GerminationByKey>();
        var first = nursery.Today.PlusDays(-20);

        Assert.Equal(2, (await germination.HandleAsync(new(GerminationKey.Crop, first, first.PlusDays(1)), nursery.Manager)).Count);
        Assert.Empty(await germination.HandleAsync(new(GerminationKey.Crop, null, first), nursery.Manager));
        Assert.Equal(80, Assert.Single(await germination.HandleAsync(new(GerminationKey.Crop, first.PlusDays(1), null), nursery.Manager)).Seeds);
        await Assert.ThrowsAsync<InvalidFields>(
            () => germination.HandleAsync(new(GerminationKey.Crop, first, first.PlusDays(-1)), nursery.Manager));
    }

    private async Task<TestNursery> CountedAsync()
    {
        var nursery = await TestNursery.OpenAsync(database);
        var early = await nursery.PlanAsync(nursery.Pepper, trays: 1, cells: 50, seeds: 2);
        var lettuce = await nursery.PlanAsync(nursery.Lettuce, trays: 1, cells: 50);
        var uncounted = await nursery.PlanAsync(nursery.Tomato, trays: 1);
        await nursery.ReserveAsync(early, "G1", 1, nursery.Today, nursery.Today.PlusDays(30));
        foreach (var batch in new[] { early, lettuce, uncounted })
        {
            await nursery.SowAsync(batch);
        }

        await nursery.RecordAsync(new TraysMoved(lettuce.TraySetCode, new TrayChoice(1, null), "C1", 1));
        nursery.Clock.Advance(TimeSpan.FromDays(5));
        var late = await nursery.PlanAsync(nursery.Pepper, trays: 1, cells: 80);
        await nursery.ReserveAsync(late, "G1", 2, nursery.Today, nursery.Today.PlusDays(30));
        await nursery.SowAsync(late);
        nursery.Clock.Advance(TimeSpan.FromDays(15));
        await nursery.RecordAsync(new PlantsCounted(early.Id, CountWhat.Seedlings, 60, null, null, false));
        await nursery.RecordAsync(new PlantsCounted(late.Id, CountWhat.Blanks, 8, null, null, false));
        await nursery.RecordAsync(new PlantsCounted(lettuce.Id, CountWhat.CellsUp, 45, null, null, false));
        await nursery.RecordAsync(new TraysMoved(late.TraySetCode, new TrayChoice(1, null), "C1", 2));

        // An undo somewhere must not hide anything.
        await nursery.RecordAsync(new EntryUndone(await nursery.RecordAsync(new PlantsLost(early.Id, 2, "slugs"))));
        return nursery;
    }
}
