using Microsoft.EntityFrameworkCore;
using Nursery.Application.Batches;
using Nursery.Application.Rounds;
using Nursery.Application.Tasks;
using Nursery.Domain.Ledger;
using Nursery.Domain.Tasks;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Application.Tests.Tasks;

/// <summary>Watering and feeding by where a batch grows: the ledger and the setup, stored and rebuilt.</summary>
public sealed class CareGroundsTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    [Fact]
    public async Task Water_TrayHouseAndMarks_DecideTheDayAndSayWhy()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await SetAsync(nursery);
        var batch = await OnHeatAsync(nursery);
        await DoneAsync(nursery, batch, TaskKind.FirstWatering);

        var water = await nursery.TaskAsync(batch.Id, TaskKind.Water);
        Assert.Equal(nursery.Today.PlusDays(2), water.DueOn);
        Assert.Matches(@"^Last watered 2 March; 72 cells, covered, on heat: dry in about \d\.\d days \(\d\.\d–\d\.\d\)$", water.Why);

        // Warm, dry air over the same bench: the next look of the hourly job finds it due sooner.
        await using (var rows = await nursery.DatabaseAsync())
        {
            await rows.Houses.Where(house => house.Id == nursery.At.House1.Id).ExecuteUpdateAsync(house => house.SetProperty(row => row.AirC, 38m).SetProperty(row => row.CoverShare, 1m));
        }

        await nursery.Get<RaiseTasks>().HandleAsync();
        Assert.Equal(nursery.Today.PlusDays(1), (await nursery.TaskAsync(batch.Id, TaskKind.Water)).DueOn);
    }

    [Fact]
    public async Task Water_DryTimeAndAgain_IsLearntAndRebuiltAlike()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await SetAsync(nursery);
        var batch = await OnHeatAsync(nursery);
        await DoneAsync(nursery, batch, TaskKind.FirstWatering);
        for (var time = 0; time < 4; time++)
        {
            nursery.Clock.Advance(TimeSpan.FromDays(1));
            await nursery.RecordAsync(new SurfaceSeen("G1", SurfaceState.Dry));
            nursery.Clock.Advance(TimeSpan.FromMinutes(5));
            await DoneAsync(nursery, batch, TaskKind.Water, time + 1);
        }

        var water = await nursery.TaskAsync(batch.Id, TaskKind.Water, 5);

        Assert.Equal(nursery.Today.PlusDays(1), water.DueOn);
        Assert.Matches(@"this bench dries 1\.\d × as fast as usual by \d marks$", water.Why);
        Assert.Empty(await nursery.Get<RebuildStates>().HandleAsync(nursery.Administrator));
        var rebuilt = await nursery.TaskAsync(batch.Id, TaskKind.Water, 5);
        Assert.Equal((water.DueOn, water.Why, water.Occurrence), (rebuilt.DueOn, rebuilt.Why, rebuilt.Occurrence));

        // The daily look is not put off by any of it.
        await using var rows = await nursery.DatabaseAsync();
        var look = await rows.Tasks.SingleAsync(task => task.BenchId == nursery.At.Heat.Id && task.Kind == TaskKind.Look && task.State == TaskState.Open);
        Assert.True(look.DueOn <= nursery.Today);
    }

    [Fact]
    public async Task Feed_SiteTellsInjectorAndFeed_SaysGrams()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await SetAsync(nursery);
        var batch = await OnHeatAsync(nursery);
        await using (var rows = await nursery.DatabaseAsync())
        {
            await rows.Crops.Where(crop => crop.Id == nursery.Pepper.CropId).ExecuteUpdateAsync(crop => crop
                .SetProperty(row => row.FeedFromDays, 7).SetProperty(row => row.FeedEveryDays, 7));
        }

        nursery.Clock.Advance(TimeSpan.FromDays(8));
        await nursery.RecordAsync(new PlantsCounted(batch.Id, CountWhat.CellsUp, 100, null, null, false));

        Assert.Contains(
            "50 ppm N on seed leaves: 25 g of a 20 % N feed in each liter of concentrate at 1:100; the product's label goes before this",
            (await nursery.TaskAsync(batch.Id, TaskKind.Feed)).Why, StringComparison.Ordinal);
    }

    private static async Task SetAsync(TestNursery nursery)
    {
        await using var rows = await nursery.DatabaseAsync();
        await rows.Sites.Where(site => site.Id == nursery.At.Site.Id).ExecuteUpdateAsync(site => site
            .SetProperty(row => row.Latitude, 43m).SetProperty(row => row.Longitude, -89m)
            .SetProperty(row => row.InjectorRatio, 100).SetProperty(row => row.FeedNitrogenPercent, 20m));
    }

    private static async Task<PlannedBatch> OnHeatAsync(TestNursery nursery)
    {
        var batch = await nursery.PlanAsync(nursery.Pepper);
        await nursery.ReserveAsync(batch, "G1", 1, nursery.Today, nursery.Today.PlusDays(10));
        await nursery.SowAsync(batch);
        nursery.Clock.Advance(TimeSpan.FromMinutes(5));
        return batch;
    }

    private static async Task DoneAsync(TestNursery nursery, PlannedBatch batch, TaskKind kind, int occurrence = 1) =>
        await nursery.RecordAsync(new TaskDone((await nursery.TaskAsync(batch.Id, kind, occurrence)).Id.Value));
}
