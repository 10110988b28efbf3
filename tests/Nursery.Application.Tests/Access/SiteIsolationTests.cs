using Nursery.Application.Access;
using Nursery.Application.Batches;
using Nursery.Application.Benches;
using Nursery.Application.Germination;
using Nursery.Application.Orders;
using Nursery.Application.Papers;
using Nursery.Application.Reservations;
using Nursery.Application.Rounds;
using Nursery.Application.Start;
using Nursery.Domain.Ledger;
using Nursery.Domain.Refusals;
using Nursery.Domain.Tasks;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Application.Tests.Access;

/// <summary>Whoever acts on one site sees and touches nothing of another, even knowing its ids and codes.</summary>
public sealed class SiteIsolationTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    [Fact]
    public async Task Queries_OtherSitesActor_ReturnNothingOfOurs()
    {
        await using var ours = await TestNursery.OpenAsync(database);
        await using var theirs = await TestNursery.OpenAsync(database);
        var (batch, _, _) = await FillAsync(ours);
        var actor = theirs.Administrator;

        Assert.Empty((await ours.Get<ListOrderLines>().HandleAsync(new Paging(), actor)).Items);
        Assert.Empty((await ours.Get<ListBatches>().HandleAsync(new Paging(), actor)).Items);
        Assert.Empty(await ours.Get<ListUnplaced>().HandleAsync(actor));
        Assert.Empty(await ours.Get<ListTasks>().HandleAsync(ours.Today.PlusDays(60), actor));
        Assert.Empty(await ours.Get<GerminationByKey>().HandleAsync(new(GerminationKey.House), actor));
        Assert.Empty(await ours.Get<RebuildStates>().HandleAsync(actor));
        Assert.DoesNotContain((await ours.Get<ListBenches>().HandleAsync(Paging.All, actor)).Items, bench => bench.Id == ours.At.Warm.Id.Value);
        Assert.DoesNotContain(
            (await ours.Get<ListHeatZones>().HandleAsync(Paging.All, actor)).Items, zone => zone.Id == ours.At.Zones[0].Id.Value);
        Assert.Equal(theirs.At.Site.Code, (await ours.Get<ShowSite>().HandleAsync(actor)).Code);
        var houses = (await ours.Get<ShowHouses>().HandleAsync(null, actor)).Houses;
        Assert.Empty(houses.SelectMany(house => house.Benches).SelectMany(bench => bench.Trays));
        Assert.DoesNotContain(houses, house => house.Id == ours.At.House1.Id.Value);
        Assert.All(await ours.Get<ShowHouses>().LoadAsync("H1", ours.Today, 3, actor), load => Assert.Equal(0, load.Held));
        var round = await ours.Get<ShowRound>().HandleAsync(actor);
        Assert.Empty(round.Tasks);
        Assert.All(round.Benches, bench => Assert.Null(bench.Surface));
        var start = await ours.Get<ShowStart>().HandleAsync(actor);
        Assert.Equal((0, 0, 0), (start.Open, start.Unplaced.Count, start.LongOnHeat.Count));
        Assert.Null(start.Recent);
        await Assert.ThrowsAsync<NotFound>(() => ours.Get<ShowBatch>().HandleAsync(batch.Id, actor));
        Assert.Equal(
            (await theirs.Get<PrintBenchTags>().HandleAsync(null, null, actor)).Length,
            (await ours.Get<PrintBenchTags>().HandleAsync(null, null, actor)).Length);
    }

    [Fact]
    public async Task Commands_OtherSitesActor_AreRefusedAndChangeNothing()
    {
        await using var ours = await TestNursery.OpenAsync(database);
        await using var theirs = await TestNursery.OpenAsync(database);
        var (sown, planned, line) = await FillAsync(ours);
        var actor = theirs.Administrator;
        var before = (await ours.LedgerCountAsync(), await ours.StateAsync(sown.Id), await ours.StockAsync(ours.PepperLot));
        var task = await ours.TaskAsync(planned.Id, TaskKind.Sow);

        await Assert.ThrowsAsync<NotFound>(() => ours.Get<SowBatch>().HandleAsync(
            planned.Id, new SowBatchRequest(ours.NewEntryId(), null, ours.Today), actor));
        var foreignSet = new ReserveSpacesRequest(planned.TraySetCode, "W1", 1, null, ours.Today, ours.Today.PlusDays(5));
        Assert.Equal("traySetCode", (await Assert.ThrowsAsync<InvalidFields>(
            () => ours.Get<ReserveSpaces>().HandleAsync(foreignSet, actor))).Errors.Single().Field);
        await Assert.ThrowsAsync<InvalidFields>(() => ours.Get<PlanBatch>().HandleAsync(
            new PlanBatchRequest(ours.Pepper.Code, null, 1, 72, 1, ours.Today, [new PlannedAllocation(line, 1)]), actor));
        await Assert.ThrowsAsync<InvalidFields>(() => ours.Get<PlanFromOrders>().HandleAsync(new PlanFromOrdersRequest([line]), actor));
        Assert.Empty((await ours.Get<PlanFromOrders>().HandleAsync(new PlanFromOrdersRequest(null), actor)).Created);
        Assert.Equal(0, (await ours.Get<PlaceByFirstFit>().HandleAsync(actor)).Placed);
        foreach (var content in new EntryContent[]
        {
            new TaskDone(task.Id.Value),
            new TaskNotYet(task.Id.Value, "no"),
            new PlantsCounted(sown.Id, CountWhat.CellsUp, 1, null, null, false),
            new PlantsLost(sown.Id, 1, "no"),
            new TraysMoved(sown.TraySetCode, new TrayChoice(1, null), "W1", 1),
        })
        {
            Assert.IsType<NotFound>((await ours.SendAsync(ours.Entry(content), actor)).Problem);
        }

        Assert.Equal(before, (await ours.LedgerCountAsync(), await ours.StateAsync(sown.Id), await ours.StockAsync(ours.PepperLot)));
        Assert.Equal(TaskState.Open, (await ours.TaskAsync(planned.Id, TaskKind.Sow)).State);
    }

    [Fact]
    public async Task Undo_OtherSitesActorKnowingTheId_TakesNothingBack()
    {
        await using var ours = await TestNursery.OpenAsync(database);
        await using var theirs = await TestNursery.OpenAsync(database);
        var batch = await ours.PlanAsync(ours.Pepper);
        var sowing = ours.NewEntryId();
        var surface = await ours.RecordAsync(new SurfaceSeen("W1", SurfaceState.Dry));
        await theirs.RecordAsync(new EntryUndone(sowing), theirs.Administrator);
        await theirs.RecordAsync(new EntryUndone(surface), theirs.Administrator);
        await ours.SowAsync(batch, sowing);

        Assert.Equal(ours.Today, (await ours.StateAsync(batch.Id)).SownOn);
        await theirs.RecordAsync(new EntryUndone(sowing), theirs.Administrator);
        Assert.Empty(await ours.Get<RebuildStates>().HandleAsync(ours.Administrator));
        Assert.Equal(ours.Today, (await ours.StateAsync(batch.Id)).SownOn);
        Assert.NotNull((await ours.Get<ShowRound>().HandleAsync(ours.Staff)).Benches.Single(bench => bench.Code == "W1").Surface);
    }

    [Fact]
    public async Task Record_IdOfAnotherSitesEntry_IsRefused()
    {
        await using var ours = await TestNursery.OpenAsync(database);
        await using var theirs = await TestNursery.OpenAsync(database);
        var entry = ours.Entry(new SurfaceSeen("W1", SurfaceState.Dry));
        await ours.SendAsync(entry);

        Assert.IsType<EntryDiffers>((await theirs.SendAsync(entry)).Problem);
    }

    private static async Task<(PlannedBatch Sown, PlannedBatch Planned, Guid Line)> FillAsync(TestNursery nursery)
    {
        await nursery.ImportAsync($"A-1,Farm,{nursery.Pepper.Code},100,2026-06-01");
        var line = (await nursery.Get<ListOrderLines>().HandleAsync(new Paging(), nursery.Staff)).Items[0].Id;
        var planned = await nursery.PlanAsync(nursery.Pepper);
        var sown = await nursery.PlanAsync(nursery.Pepper);
        await nursery.ReserveAsync(sown, "G1", 1, nursery.Today, nursery.Today.PlusDays(10));
        await nursery.SowAsync(sown);
        await nursery.RecordAsync(new PlantsCounted(sown.Id, CountWhat.CellsUp, 40, null, null, false));
        await nursery.RecordAsync(new SurfaceSeen("W1", SurfaceState.Dry));
        return (sown, planned, line);
    }
}
