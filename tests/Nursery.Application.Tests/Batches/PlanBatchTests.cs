using Microsoft.EntityFrameworkCore;
using Nursery.Application.Batches;
using Nursery.Application.Orders;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.Refusals;
using Nursery.Domain.Tasks;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Application.Tests.Batches;

public sealed class PlanBatchTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    [Fact]
    public async Task HandleAsync_Batch_HasCodesReadyDayAndTask()
    {
        await using var nursery = await TestNursery.OpenAsync(database);

        var first = await nursery.PlanAsync(nursery.Pepper, trays: 3);
        var second = await nursery.PlanAsync(nursery.Pepper, trays: 3);

        Assert.Equal("PE-001-" + HumanCode.CheckSign("PE001"), first.Code);
        Assert.Equal("PE-002-" + HumanCode.CheckSign("PE002"), second.Code);
        Assert.Equal(first.Code + "-1", first.TraySetCode);

        // 8 weeks; 157.6 °C days over 8.7 °C take 9.35 days at the 78 °F of the mix in the best zone instead of 7.60 at 85 °F.
        Assert.Equal((BatchStage.Planned, nursery.Today.PlusDays(58)), (first.Stage, first.ReadyOn));
        var task = await nursery.TaskAsync(first.Id, TaskKind.Sow);
        Assert.Equal((nursery.Today, TaskState.Open), (task.DueOn, task.State));
        Assert.Contains("3 trays", task.Why, StringComparison.Ordinal);
    }

    [Fact]
    public async Task HandleAsync_FortyAtOnce_GiveEveryCodeOnce()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batches = await Task.WhenAll(Enumerable.Range(0, 40).Select(_ => nursery.PlanAsync(nursery.Pepper)));

        Assert.Equal(
            Enumerable.Range(1, 40).Select(number => HumanCode.ForBatch("PE", number)),
            batches.Select(batch => batch.Code).Order(StringComparer.Ordinal));
    }

    [Theory]
    [InlineData(0, 72, 1, 0, "trays")]
    [InlineData(10_001, 72, 1, 0, "trays")]
    [InlineData(1, 0, 1, 0, "cellsPerTray")]
    [InlineData(1, 513, 1, 0, "cellsPerTray")]
    [InlineData(1, 72, 0, 0, "seedsPerCell")]
    [InlineData(1, 72, 51, 0, "seedsPerCell")]
    [InlineData(1, 72, 1, -1, "sowOn")]
    [InlineData(1, 72, 1, 3654, "sowOn")]
    public async Task HandleAsync_OutOfRange_NamesTheField(int trays, int cells, int seeds, int inDays, string field)
    {
        await using var nursery = await TestNursery.OpenAsync(database);

        var refused = await Assert.ThrowsAsync<InvalidFields>(
            () => nursery.PlanAsync(nursery.Pepper, trays, inDays, null, cells, seeds));

        Assert.Equal(field, Assert.Single(refused.Errors).Field);
        await using var open = await nursery.DatabaseAsync();
        Assert.False(await open.Batches.AnyAsync(batch => batch.SiteId == nursery.At.Site.Id));
    }

    [Fact]
    public async Task HandleAsync_TenYearsOn_IsAllowed()
    {
        await using var nursery = await TestNursery.OpenAsync(database);

        Assert.Equal(nursery.Today.PlusYears(10), (await nursery.PlanAsync(nursery.Pepper, inDays: 3653)).SowOn);
    }

    [Fact]
    public async Task HandleAsync_UnknownVarietyOrForeignLot_NamesTheField()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var plan = nursery.Get<PlanBatch>();
        var request = new PlanBatchRequest("nope", null, 1, 72, 1, nursery.Today);

        Assert.Equal("varietyCode", (await Assert.ThrowsAsync<InvalidFields>(() => plan.HandleAsync(request, nursery.HeadGrower))).Errors[0].Field);
        foreach (var lot in new[] { "nope", nursery.TomatoLot.Code })
        {
            var wrong = request with { VarietyCode = nursery.Pepper.Code, LotCode = lot };
            Assert.Equal("lotCode", (await Assert.ThrowsAsync<InvalidFields>(() => plan.HandleAsync(wrong, nursery.HeadGrower))).Errors[0].Field);
        }
    }

    [Fact]
    public async Task HandleAsync_Allocations_NeverExceedTheLine()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var line = await LineAsync(nursery, 100);
        await AllocateAsync(nursery, new PlannedAllocation(line, 60));

        var refused = await Assert.ThrowsAsync<InvalidFields>(() => AllocateAsync(nursery, new PlannedAllocation(line, 41)));
        Assert.Equal(("allocations.plants", "41"), (refused.Errors[0].Field, refused.Errors[0].Value));
        Assert.Contains("1–40", refused.Errors[0].Allowed, StringComparison.Ordinal);
        await Assert.ThrowsAsync<InvalidFields>(() => AllocateAsync(nursery, new PlannedAllocation(line, 0)));
        await Assert.ThrowsAsync<InvalidFields>(() => AllocateAsync(nursery, new PlannedAllocation(line, 10), new PlannedAllocation(line, 10)));
        await Assert.ThrowsAsync<InvalidFields>(() => AllocateAsync(nursery, new PlannedAllocation(Guid.CreateVersion7(), 10)));

        await AllocateAsync(nursery, new PlannedAllocation(line, 40));
        Assert.Equal(100, (await nursery.Get<ListOrderLines>().HandleAsync(new Paging(), nursery.Staff)).Items[0].AllocatedPlants);
    }

    [Fact]
    public async Task HandleAsync_TenAllocateTheSamePlantsAtOnce_OneDoes()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var line = await LineAsync(nursery, 100);

        var outcomes = await Task.WhenAll(Enumerable.Range(0, 10).Select(
            _ => Record.ExceptionAsync(() => AllocateAsync(nursery, new PlannedAllocation(line, 100)))));

        Assert.Single(outcomes, failure => failure is null);
        Assert.Equal(9, outcomes.Count(failure => failure is InvalidFields));
    }

    [Fact]
    public async Task HandleAsync_LineOfAnotherVariety_IsRefused()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await nursery.ImportAsync($"A-1,Farm,{nursery.Lettuce.Code},100,2026-06-01");
        var line = (await nursery.Get<ListOrderLines>().HandleAsync(new Paging(), nursery.Staff)).Items[0].Id;

        await Assert.ThrowsAsync<InvalidFields>(() => AllocateAsync(nursery, new PlannedAllocation(line, 10)));
    }

    private static async Task<Guid> LineAsync(TestNursery nursery, int plants)
    {
        await nursery.ImportAsync($"A-1,Farm,{nursery.Pepper.Code},{plants},2026-06-01");
        return (await nursery.Get<ListOrderLines>().HandleAsync(new Paging(), nursery.Staff)).Items[0].Id;
    }

    private static Task<PlannedBatch> AllocateAsync(TestNursery nursery, params PlannedAllocation[] allocations) =>
        nursery.Get<PlanBatch>().HandleAsync(
            new PlanBatchRequest(nursery.Pepper.Code, null, 2, 72, 1, nursery.Today, allocations), nursery.HeadGrower);
}
