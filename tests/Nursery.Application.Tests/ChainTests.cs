using System.Text;
using NodaTime;
using Nursery.Application.Batches;
using Nursery.Application.Benches;
using Nursery.Application.Germination;
using Nursery.Application.Orders;
using Nursery.Application.Papers;
using Nursery.Application.Reservations;
using Nursery.Application.Rounds;
using Nursery.Application.Tasks;
using Nursery.Domain.Batches;
using Nursery.Domain.Ledger;
using Nursery.Domain.Tasks;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Application.Tests;

/// <summary>The whole chain once, link by link.</summary>
public sealed class ChainTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    [Fact]
    public async Task Chain_OrderToTag_EachLinkWorks()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var file = $"order,customer,variety,plants,ready_on\nO-1,Invented Farm,{nursery.Pepper.Code},500,2026-06-01\n";
        var imported = await nursery.Get<ImportOrders>().HandleAsync(Encoding.UTF8.GetBytes(file), false, nursery.HeadGrower);
        Assert.Equal(1, imported.Created);

        var planned = await nursery.Get<PlanFromOrders>().HandleAsync(new PlanFromOrdersRequest(null), nursery.HeadGrower);
        var batch = Assert.Single(planned.Created);
        Assert.Empty(planned.NotPlanned);

        // 8 weeks at the best temperature; 157.6 °C days over 8.7 °C take 9.35 days at 78 °F instead of 7.60 at 85 °F.
        Assert.Equal(new LocalDate(2026, 6, 1).PlusDays(-58 - 7), batch.SowOn);

        var placed = await nursery.Get<PlaceByFirstFit>().HandleAsync(nursery.HeadGrower);
        Assert.Equal(1, placed.Placed);

        nursery.Clock.SetUtcNow(new DateTimeOffset(batch.SowOn.ToDateTimeUnspecified().AddHours(15), TimeSpan.Zero));
        await nursery.Get<RaiseTasks>().HandleAsync();
        var sow = Assert.Single(await nursery.Get<ListTasks>().HandleAsync(null, nursery.Staff));
        Assert.Equal(TaskKind.Sow, sow.Kind);
        Assert.Equal("G1", sow.BenchCode);

        await Done(nursery, sow.Id);
        nursery.Clock.Advance(TimeSpan.FromDays(8));
        var count = new PlantsCounted(batch.Id, CountWhat.Seedlings, 100, null, 72, true);
        var counted = Assert.Single(await nursery.Get<RecordEntries>().HandleAsync([Entry(nursery, count)], nursery.Staff));
        Assert.True(counted.Outcome == EntryOutcome.Applied, counted.Problem?.Message);
        var shown = await nursery.Get<ShowBatch>().HandleAsync(batch.Id, nursery.Manager);
        Assert.Equal(BatchStage.Emerging, shown.Batch.Stage);
        Assert.Equal(100, shown.Batch.CountedUp);

        var move = (await nursery.Get<ListTasks>().HandleAsync(null, nursery.Staff)).Single(task => task.Kind == TaskKind.MoveOffHeat);
        await Done(nursery, move.Id);
        var houses = await nursery.Get<ShowHouses>().HandleAsync(null, nursery.Manager);
        var trays = Assert.Single(houses.Houses.SelectMany(house => house.Benches).SelectMany(bench => bench.Trays), tray => tray.Standing);
        Assert.Equal(BatchStage.GrowingOn, trays.Stage);

        var rate = Assert.Single(await nursery.Get<GerminationByKey>().HandleAsync(new(GerminationKey.Crop), nursery.Manager));
        Assert.Equal(("PE", 1, 144L, 100m), (rate.Key, rate.Batches, rate.Seeds, rate.Emerged));
        Assert.Single((await nursery.Get<ListOrderLines>().HandleAsync(new Paging(), nursery.Manager)).Items);
        Assert.Single((await nursery.Get<ListBatches>().HandleAsync(new Paging(), nursery.Manager)).Items);
        Assert.Equal(4, (await nursery.Get<ListBenches>().HandleAsync(new Paging(), nursery.Manager)).Items.Count);
        Assert.Equal(3, (await nursery.Get<ListHeatZones>().HandleAsync(new Paging(), nursery.Manager)).Items.Count);
        var pdf = await nursery.Get<PrintBenchTags>().HandleAsync(null, null, nursery.Manager);
        Assert.StartsWith("%PDF", Encoding.ASCII.GetString(pdf, 0, 8), StringComparison.Ordinal);
        Assert.Empty(await nursery.Get<RebuildStates>().HandleAsync(nursery.Administrator));
    }

    private static async Task Done(TestNursery nursery, Guid task)
    {
        var result = Assert.Single(await nursery.Get<RecordEntries>().HandleAsync([Entry(nursery, new TaskDone(task))], nursery.Staff));
        Assert.True(result.Outcome == EntryOutcome.Applied, result.Problem?.Message);
    }

    private static EntryRequest Entry(TestNursery nursery, EntryContent content) => new(
        Guid.CreateVersion7(nursery.Clock.GetUtcNow()), OffsetDateTime.FromDateTimeOffset(nursery.Clock.GetUtcNow()), content);
}
