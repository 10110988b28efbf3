using Nursery.Application.Germination;
using Nursery.Application.Rounds;
using Nursery.Domain.Ledger;
using Nursery.Domain.Refusals;
using Nursery.Domain.Tasks;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Application.Tests.Germination;

/// <summary>
/// Three batches sown on one day, each figure by hand. Seed lots: pepper 80 %, lettuce 90 % on the label. Published minimum: pepper 55 %,
/// lettuce 80 % (7 CFR 201.31, tests/reference/01a_fsa_min_germination.csv).
/// <code>
/// pepper A, 50 cells of 2 seeds = 100:   day 3 not up     day 5: 20     day 9: 60
/// pepper B, 80 cells of 1 seed  =  80:                    day 5: 20     day 9: 72
/// lettuce,  50 cells of 1 seed  =  50:                                  day 9: 45
/// </code>
/// </summary>
public sealed class ShowGerminationTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    [Fact]
    public async Task HandleAsync_ByCrop_ComparesWithLabelMinimumAndTime()
    {
        await using var nursery = await CountedAsync();

        var rows = (await nursery.Get<ShowGermination>().HandleAsync(new(GerminationKey.Crop), nursery.Manager)).Rows;

        // Lettuce: 45 ÷ 50 = 90 %: on its label, 10 points above 80 %; first counted when more than half were up: by day 9.
        var lettuce = rows[0].Item;
        Assert.Equal((0.9m, 0m, "Lettuce"), (lettuce.LabelFraction, lettuce.LabelDifference, lettuce.MinimumKind));
        Assert.Equal(0.1m, lettuce.MinimumDifference!.Value, 12);
        Assert.Equal((null, 0), (lettuce.HalfDays, lettuce.HalfBatches));
        Assert.Equal((null, 9), (rows[0].Batches[0].Half!.Days, rows[0].Batches[0].Half!.AtMost));

        // Pepper: (60 + 72) ÷ (100 + 80) = 73.33 %: 6.67 points below 80 %, 18.33 above 55 %.
        // A: half of 60 is 30, from 20 to 60 in 4 days: 5 + 10 ÷ 10 = day 6. B: half of 72 is 36: 5 + 16 ÷ 13 = 6.2308. Median: 6.1154.
        var pepper = rows[1].Item;
        Assert.Equal(-1 / 15.0, (double)pepper.LabelDifference!.Value, 1e-12);
        Assert.Equal((132 / 180.0) - 0.55, (double)pepper.MinimumDifference!.Value, 1e-12);
        Assert.Equal(5 + ((10 / 10.0) + (16 / 13.0)) / 2, pepper.HalfDays!.Value, 1e-12);
        Assert.Equal(2, pepper.HalfBatches);
    }

    [Fact]
    public async Task HandleAsync_CountsOfABatch_AreEveryPointOfItsCurve()
    {
        await using var nursery = await CountedAsync();

        var rows = (await nursery.Get<ShowGermination>().HandleAsync(new(GerminationKey.Crop), nursery.Manager)).Rows;

        var batches = rows[1].Batches.Select(batch => string.Join(' ', batch.Counts.Select(count => $"{batch.DaysOf(count)}:{count.Up:0}/{count.Seeds}")));
        Assert.Equal(["3:0/ 5:20/100 9:60/100", "5:20/80 9:72/80"], batches);
    }

    [Fact]
    public async Task HandleAsync_HouseOfTwoKinds_WeighsLabelsBySeedsAndNamesNoMinimum()
    {
        await using var nursery = await CountedAsync();

        var row = Assert.Single((await nursery.Get<ShowGermination>().HandleAsync(new(GerminationKey.House), nursery.Manager)).Rows);

        // (180 × 80 % + 50 × 90 %) ÷ 230 = 82.17 %; up are (132 + 45) ÷ 230 = 76.96 %.
        Assert.Equal(189 / 230.0, (double)row.Item.LabelFraction!.Value, 1e-12);
        Assert.Equal((177 - 189) / 230.0, (double)row.Item.LabelDifference!.Value, 1e-12);
        Assert.Equal((null, null, null), (row.Item.MinimumKind, row.Item.MinimumFraction, row.Item.MinimumDifference));
        Assert.Equal(("several kinds", ""), GerminationWords.Minimum(row));
    }

    [Fact]
    public async Task HandleAsync_Choices_NarrowAndSort()
    {
        await using var nursery = await CountedAsync();
        var show = nursery.Get<ShowGermination>();

        Assert.Equal(["PE"], await KeysAsync(new(GerminationKey.Crop, Crop: "PE")));
        Assert.Equal(["LE"], await KeysAsync(new(GerminationKey.Crop, Lot: nursery.LettuceLot.Code)));
        Assert.Equal(["LE", "PE"], await KeysAsync(new(GerminationKey.Crop, House: "H1")));
        Assert.Empty(await KeysAsync(new(GerminationKey.Crop, House: "H2")));
        Assert.Equal(["PE"], await KeysAsync(new(GerminationKey.Crop, Below: 0.9m)));
        Assert.Equal(["PE", "LE"], await KeysAsync(new(GerminationKey.Crop, Order: GerminationOrder.Seeds, Descending: true)));
        Assert.Equal(["PE", "LE"], await KeysAsync(new(GerminationKey.Crop, Descending: true)));

        // Lettuce has no time to half: last both ways.
        Assert.Equal(["PE", "LE"], await KeysAsync(new(GerminationKey.Crop, Order: GerminationOrder.HalfDays)));
        Assert.Equal(["PE", "LE"], await KeysAsync(new(GerminationKey.Crop, Order: GerminationOrder.HalfDays, Descending: true)));
        await Assert.ThrowsAsync<InvalidFields>(() => KeysAsync(new(GerminationKey.Crop, Below: 1.1m)));

        // What can be chosen does not shrink with the choice.
        var view = await show.HandleAsync(new(GerminationKey.Crop, Crop: "PE"), nursery.Manager);
        Assert.Equal([("LE", "Lettuce"), ("PE", "Pepper")], view.Crops);
        Assert.Equal([nursery.LettuceLot.Code, nursery.PepperLot.Code], view.Lots);
        Assert.Equal(["H1"], view.Houses.Select(house => house.Code));

        async Task<IEnumerable<string>> KeysAsync(GerminationRequest request) =>
            (await show.HandleAsync(request, nursery.Manager)).Rows.Select(row => row.Item.Key);
    }

    private async Task<TestNursery> CountedAsync()
    {
        var nursery = await TestNursery.OpenAsync(database);
        var a = await nursery.PlanAsync(nursery.Pepper, trays: 1, cells: 50, seeds: 2);
        var b = await nursery.PlanAsync(nursery.Pepper, trays: 1, cells: 80);
        var lettuce = await nursery.PlanAsync(nursery.Lettuce, trays: 1, cells: 50);
        foreach (var (batch, space) in new[] { (a, 1), (b, 2), (lettuce, 3) })
        {
            await nursery.ReserveAsync(batch, batch == lettuce ? "W1" : "G1", space, nursery.Today, nursery.Today.PlusDays(30));
            await nursery.SowAsync(batch);
        }

        nursery.Clock.Advance(TimeSpan.FromDays(3));
        await nursery.Get<Nursery.Application.Tasks.RaiseTasks>().HandleAsync(default);
        var look = await nursery.TaskAsync(a.Id, TaskKind.EmergenceCheck);
        await nursery.RecordAsync(new TaskNotYet(look.Id.Value, "not up yet"));
        nursery.Clock.Advance(TimeSpan.FromDays(2));
        await CountAsync(a, 20);
        await CountAsync(b, 20);
        nursery.Clock.Advance(TimeSpan.FromDays(4));

        // A mistake that is taken back is no point.
        await nursery.RecordAsync(new EntryUndone(await nursery.RecordAsync(new PlantsCounted(a.Id, CountWhat.Seedlings, 99, null, null, false))));
        await CountAsync(a, 60);
        await CountAsync(b, 72);
        await CountAsync(lettuce, 45);
        return nursery;

        Task<Guid> CountAsync(Nursery.Application.Batches.PlannedBatch batch, int seedlings) =>
            nursery.RecordAsync(new PlantsCounted(batch.Id, CountWhat.Seedlings, seedlings, null, null, false));
    }
}
