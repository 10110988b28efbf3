using System.Text;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Batches;
using Nursery.Application.Orders;
using Nursery.Application.Setup.Lists;
using Nursery.Domain.Ledger;
using Nursery.Domain.Refusals;
using Nursery.Domain.Tasks;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Application.Tests.Orders;

public sealed class DeliveriesTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    private static readonly LocalDate _first = new(2026, 6, 1);
    private static readonly LocalDate _second = new(2026, 6, 15);

    [Fact]
    public async Task Import_OptionalColumns_AreKeptAndReadTwiceTheSame()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var file = File(nursery, "2026-06-01 200; 2026-06-15 100", nursery.Tomato.Code);

        Assert.Equal(1, (await ImportAsync(nursery, file)).Created);
        Assert.Empty((await ImportAsync(nursery, file)).Errors);

        var line = await LineAsync(nursery);
        Assert.Equal([(_first, 200), (_second, 100)], line.Deliveries.Select(row => (row.ReadyOn, row.Plants)));
        Assert.Equal(nursery.Tomato.Code, Assert.Single(line.Substitutes).Code);
        var other = await ImportAsync(nursery, File(nursery, "2026-06-01 100; 2026-06-15 200", ""));
        Assert.Equal("deliveries", Assert.Single(other.Errors).Field);
    }

    [Theory]
    [InlineData("2026-06-01 200; 2026-06-15 99")]
    [InlineData("2026-06-02 200; 2026-06-15 100")]
    [InlineData("2026-06-01 200; 2026-06-01 100")]
    [InlineData("2026-06-01 300")]
    [InlineData("200 on the first")]
    public async Task Import_DeliveriesThatAreNotTheLine_AreRefused(string deliveries)
    {
        await using var nursery = await TestNursery.OpenAsync(database);

        var result = await ImportAsync(nursery, File(nursery, deliveries, ""));

        Assert.Equal("deliveries", Assert.Single(result.Errors).Field);
    }

    [Fact]
    public async Task PlanFromOrders_Deliveries_MakesABatchForEach()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await ImportAsync(nursery, File(nursery, "2026-06-01 200; 2026-06-15 100", ""));

        var made = await nursery.Get<PlanFromOrders>().HandleAsync(new PlanFromOrdersRequest(null), nursery.HeadGrower);

        Assert.Equal([0, 14], made.Created.Select(batch => Period.DaysBetween(made.Created[0].SowOn, batch.SowOn)));
        var second = await nursery.Get<ShowBatch>().HandleAsync(made.Created[1].Id, nursery.HeadGrower);
        Assert.Equal((100, _second), (second.Allocations[0].Plants, second.Allocations[0].ReadyOn));
        Assert.All((await LineAsync(nursery)).Deliveries, row => Assert.Equal(0, row.OpenPlants));
        Assert.Empty((await nursery.Get<PlanFromOrders>().HandleAsync(new PlanFromOrdersRequest(null), nursery.HeadGrower)).Created);
    }

    [Fact]
    public async Task PlanFromOrders_WholeLines_MakesOne()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await ImportAsync(nursery, File(nursery, "2026-06-01 200; 2026-06-15 100", ""));

        var made = await nursery.Get<PlanFromOrders>().HandleAsync(new PlanFromOrdersRequest(null, WholeLines: true), nursery.HeadGrower);

        Assert.Single(made.Created);
        Assert.All((await LineAsync(nursery)).Deliveries, row => Assert.Equal(0, row.OpenPlants));
    }

    [Fact]
    public async Task PlanBatch_OfASubstitute_ServesTheLine()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await ImportAsync(nursery, File(nursery, "", ""));
        var line = await LineAsync(nursery);
        var request = new PlanBatchRequest(nursery.Tomato.Code, null, 2, 72, 1, nursery.Today, [new PlannedAllocation(line.Id, 100)]);
        var refusal = await Assert.ThrowsAsync<InvalidFields>(() => nursery.Get<PlanBatch>().HandleAsync(request, nursery.HeadGrower));
        Assert.Equal("allocations.orderLineId", refusal.Errors[0].Field);
        await nursery.Get<ChangeOrderLine>().HandleAsync(
            new ChangeOrderLineRequest(line.Id, line.Version, [], [nursery.Tomato.Code]), nursery.HeadGrower);

        var batch = await nursery.Get<PlanBatch>().HandleAsync(request, nursery.HeadGrower);

        Assert.Equal(100, (await LineAsync(nursery)).AllocatedPlants);
        var page = await nursery.Get<ShowBatch>().HandleAsync(batch.Id, nursery.HeadGrower);
        Assert.Equal(nursery.Pepper.Name, page.Allocations[0].Ordered);
        await Assert.ThrowsAsync<InUse>(() => nursery.Get<ChangeOrderLine>().HandleAsync(
            new ChangeOrderLineRequest(line.Id, line.Version + 1, [], []), nursery.HeadGrower));
    }

    [Fact]
    public async Task ChangeOrderLine_Split_IsInTheLedgerAndMovesTheTask()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await ImportAsync(nursery, File(nursery, "", ""));
        var line = await LineAsync(nursery);
        AskedDelivery[] split = [new(_first, 200), new(_second, 100)];

        var version = await nursery.Get<ChangeOrderLine>().HandleAsync(
            new ChangeOrderLineRequest(line.Id, line.Version, split, []), nursery.HeadGrower);

        var second = (await LineAsync(nursery)).Deliveries[1];
        var batch = await nursery.Get<PlanBatch>().HandleAsync(
            new PlanBatchRequest(nursery.Pepper.Code, null, 2, 72, 1, nursery.Today, [new PlannedAllocation(line.Id, 60, second.Id)]), nursery.HeadGrower);
        Assert.Contains("15 June", (await nursery.TaskAsync(batch.Id, TaskKind.Sow)).Why, StringComparison.Ordinal);
        await Assert.ThrowsAsync<InUse>(() => nursery.Get<ChangeOrderLine>().HandleAsync(
            new ChangeOrderLineRequest(line.Id, version, [new(_first, 250), new(_second, 50)], []), nursery.HeadGrower));
        await Assert.ThrowsAsync<ChangedMeanwhile>(() => nursery.Get<ChangeOrderLine>().HandleAsync(
            new ChangeOrderLineRequest(line.Id, line.Version, [], []), nursery.HeadGrower));
        await using var rows = await nursery.DatabaseAsync();
        var entries = await rows.Ledger.Where(entry => entry.SiteId == nursery.At.Site.Id && entry.Kind == LedgerKind.Changed).ToListAsync();
        Assert.Equal("2026-06-01 200; 2026-06-15 100", ((Changed)Assert.Single(entries).Value).After!["deliveries"]);
    }

    private static Task<ImportResult> ImportAsync(TestNursery nursery, byte[] file) =>
        nursery.Get<ImportOrders>().HandleAsync(file, false, nursery.HeadGrower);

    private static byte[] File(TestNursery nursery, string deliveries, string substitutes) => Encoding.UTF8.GetBytes(
        $"order,customer,variety,plants,ready_on,deliveries,substitutes\nD-1,Farm,{nursery.Pepper.Code},300,2026-06-01,{deliveries},{substitutes}\n");

    private static async Task<OrderLineItem> LineAsync(TestNursery nursery) =>
        Assert.Single((await nursery.Get<ListOrderLines>().HandleAsync(new Paging(), nursery.HeadGrower)).Items);
}
