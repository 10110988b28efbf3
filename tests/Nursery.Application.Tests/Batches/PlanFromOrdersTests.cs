using NodaTime;
using Nursery.Application.Batches;
using Nursery.Application.Orders;
using Nursery.Application.Reservations;
using Nursery.Domain.Refusals;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Application.Tests.Batches;

public sealed class PlanFromOrdersTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    [Fact]
    public async Task HandleAsync_Line_GivesSowDayTraysAndAllocation()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await nursery.ImportAsync($"A-1,Farm,{nursery.Lettuce.Code},500,2026-06-01");

        var batch = Assert.Single((await PlanAsync(nursery)).Created);

        // 1 June less 5 weeks and 7 margin days: mix of 68 °F against 70 °F at best is a third of a day. Lettuce is never thinned, so one seed a cell;
        // 0.85 of Beta(29.75, 5.25), survival Beta(38, 2), a tray in 200 lost: 737 cells by a plain double sum over p and s, 6 trays of 128.
        Assert.Equal((new LocalDate(2026, 4, 20), 6), (batch.SowOn, batch.Trays));
        Assert.Equal(1, (await nursery.Get<ShowBatch>().HandleAsync(batch.Id, nursery.Staff)).Batch.SeedsPerCell);
        Assert.Equal(500, (await nursery.Get<ListOrderLines>().HandleAsync(new Paging(), nursery.Staff)).Items[0].AllocatedPlants);
        Assert.Empty((await PlanAsync(nursery)).Created);
    }

    [Fact]
    public async Task HandleAsync_TooLateOrTooMuch_IsNamedAndTheOthersGoOn()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await nursery.ImportAsync(
            $"A-1,Farm,{nursery.Pepper.Code},10,2026-03-20",
            $"A-2,Farm,{nursery.Pepper.Code},1000000,2026-07-01",
            $"A-3,Farm,{nursery.Pepper.Code},10,2199-07-01",
            $"A-4,Farm,{nursery.Pepper.Code},10,2026-08-01");

        var result = await PlanAsync(nursery);

        Assert.Single(result.Created);
        Assert.Equal(["A-1", "A-2", "A-3"], result.NotPlanned.Select(line => line.Order));
        Assert.Contains("late", result.NotPlanned[0].Why, StringComparison.Ordinal);
        Assert.Contains("trays", result.NotPlanned[1].Why, StringComparison.Ordinal);
        Assert.Contains("sowOn", result.NotPlanned[2].Why, StringComparison.Ordinal);
    }

    [Fact]
    public async Task HandleAsync_UnknownLine_IsRefusedByField()
    {
        await using var nursery = await TestNursery.OpenAsync(database);

        var refused = await Assert.ThrowsAsync<InvalidFields>(
            () => nursery.Get<PlanFromOrders>().HandleAsync(new PlanFromOrdersRequest([Guid.CreateVersion7()]), nursery.HeadGrower));

        Assert.Equal("orderLineIds", refused.Errors[0].Field);
    }

    [Fact]
    public async Task HandleAsync_TwoPeopleAtOnce_MakeEachBatchOnce()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await nursery.ImportAsync([.. Enumerable.Range(1, 8).Select(number => $"A-{number},Farm,{nursery.Pepper.Code},100,2026-06-{number:00}")]);

        var results = await Task.WhenAll(PlanAsync(nursery), PlanAsync(nursery), PlanAsync(nursery));

        Assert.Equal(8, results.Sum(result => result.Created.Count));
        Assert.All(
            (await nursery.Get<ListOrderLines>().HandleAsync(new Paging(), nursery.Staff)).Items,
            line => Assert.Equal(100, line.AllocatedPlants));
    }

    [Fact]
    public async Task PlaceByFirstFit_PlannedBatches_HoldHeatThenBench()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await nursery.ImportAsync(
            $"A-1,Farm,{nursery.Lettuce.Code},500,2026-06-01",
            $"A-2,Farm,{nursery.Pepper.Code},5000,2026-06-01",
            $"A-3,Farm,{nursery.Pepper.Code},100,2026-06-01");
        await PlanAsync(nursery);

        var outcome = await nursery.Get<PlaceByFirstFit>().HandleAsync(nursery.HeadGrower);

        Assert.Equal(2, outcome.Placed);
        Assert.Contains("spaces in a row free", Assert.Single(outcome.NotPlaced).Why, StringComparison.Ordinal);
        var batches = (await nursery.Get<ListBatches>().HandleAsync(new Paging(), nursery.Staff)).Items;
        var lettuce = await nursery.Get<ShowBatch>().HandleAsync(batches.Single(row => row.CropCode == "LE").Id, nursery.Staff);

        // Too hot in the first zone; three days to emergence and two more on heat, then the cool bench to the ready day.
        Assert.Equal(
            [("G1", 11, new LocalDate(2026, 4, 20), new LocalDate(2026, 4, 25)), ("C1", 1, new LocalDate(2026, 4, 25), new LocalDate(2026, 5, 26))],
            lettuce.Reservations.Select(row => (row.BenchCode, row.FirstSpace, row.From, row.To)));
        Assert.Equal(0, (await nursery.Get<PlaceByFirstFit>().HandleAsync(nursery.HeadGrower)).Placed);
    }

    private static Task<PlanFromOrdersResult> PlanAsync(TestNursery nursery) =>
        nursery.Get<PlanFromOrders>().HandleAsync(new PlanFromOrdersRequest(null), nursery.HeadGrower);
}
