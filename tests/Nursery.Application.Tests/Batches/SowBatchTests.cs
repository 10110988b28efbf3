using Nursery.Application.Batches;
using Nursery.Application.Rounds;
using Nursery.Domain.Batches;
using Nursery.Domain.Refusals;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Application.Tests.Batches;

public sealed class SowBatchTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    [Fact]
    public async Task HandleAsync_Repeated_TakesTheSeedOnce()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper);
        var entry = nursery.NewEntryId();

        Assert.Equal(EntryOutcome.Applied, await nursery.SowAsync(batch, entry));
        Assert.Equal(EntryOutcome.Repeated, await nursery.SowAsync(batch, entry));
        Assert.Equal(100_000 - 144, await nursery.StockAsync(nursery.PepperLot));
    }

    [Fact]
    public async Task HandleAsync_SameIdOtherContent_IsRefused()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper);
        var entry = nursery.NewEntryId();
        await nursery.SowAsync(batch, entry);

        await Assert.ThrowsAsync<EntryDiffers>(() => nursery.Get<SowBatch>().HandleAsync(
            batch.Id, new SowBatchRequest(entry, nursery.PepperLot.Code, nursery.Today), nursery.Staff));
    }

    [Fact]
    public async Task HandleAsync_AnotherEntry_IsAlreadySown()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper);
        await nursery.SowAsync(batch);

        await Assert.ThrowsAsync<AlreadySown>(() => nursery.SowAsync(batch));
        Assert.Equal(100_000 - 144, await nursery.StockAsync(nursery.PepperLot));
    }

    [Fact]
    public async Task HandleAsync_ManyBatchesOneLotAtOnce_StockNeverFallsBelowZero()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batches = new List<PlannedBatch>();
        for (var number = 0; number < 12; number++)
        {
            batches.Add(await nursery.PlanAsync(nursery.Tomato, trays: 2));
        }

        var outcomes = await Task.WhenAll(batches.Select(batch => Record.ExceptionAsync(() => nursery.SowAsync(batch))));

        // 1,000 seeds, 144 a batch: six fit.
        Assert.Equal(6, outcomes.Count(failure => failure is null));
        Assert.Equal(6, outcomes.Count(failure => failure is StockTooLow));
        Assert.Equal(1000 - (6 * 144), await nursery.StockAsync(nursery.TomatoLot));
    }

    [Fact]
    public async Task HandleAsync_LotOfAnotherVariety_IsRefused()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper);

        foreach (var lot in new[] { nursery.TomatoLot.Code, "no such lot" })
        {
            var refused = await Assert.ThrowsAsync<InvalidFields>(() => nursery.Get<SowBatch>().HandleAsync(
                batch.Id, new SowBatchRequest(nursery.NewEntryId(), lot, nursery.Today), nursery.Staff));
            Assert.Equal("lotCode", refused.Errors[0].Field);
        }

        Assert.Equal(BatchStage.Planned, (await nursery.StateAsync(batch.Id)).Stage);
    }

    [Fact]
    public async Task HandleAsync_NoLotAnywhere_IsRefused()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.Get<PlanBatch>().HandleAsync(
            new PlanBatchRequest(nursery.Pepper.Code, null, 1, 72, 1, nursery.Today), nursery.HeadGrower);

        await Assert.ThrowsAsync<LotMissing>(() => nursery.SowAsync(batch));
    }

    [Fact]
    public async Task HandleAsync_Tomorrow_IsRefusedAndYesterdayIsNot()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper);
        var tomorrow = new SowBatchRequest(nursery.NewEntryId(), null, nursery.Today.PlusDays(1));
        var refused = await Assert.ThrowsAsync<InvalidFields>(
            () => nursery.Get<SowBatch>().HandleAsync(batch.Id, tomorrow, nursery.Staff));
        Assert.Equal("on", refused.Errors[0].Field);

        await nursery.Get<SowBatch>().HandleAsync(
            batch.Id, tomorrow with { On = nursery.Today.PlusDays(-1) }, nursery.Staff);
        Assert.Equal(nursery.Today.PlusDays(-1), (await nursery.StateAsync(batch.Id)).SownOn);
    }

    [Fact]
    public async Task HandleAsync_UndoneThenFromAnotherLot_MovesTheSeed()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var other = nursery.NewLot(nursery.Pepper, $"L2-{nursery.Pepper.Code}", 0.7m, 500);
        await using (var open = await nursery.DatabaseAsync())
        {
            open.AddRange(other, nursery.Receipt(other));
            await open.SaveChangesAsync();
        }

        var batch = await nursery.PlanAsync(nursery.Pepper);
        var entry = nursery.NewEntryId();
        await nursery.SowAsync(batch, entry);
        await nursery.RecordAsync(new EntryUndone(entry));
        await nursery.Get<SowBatch>().HandleAsync(
            batch.Id, new SowBatchRequest(nursery.NewEntryId(), other.Code, nursery.Today), nursery.Staff);

        Assert.Equal(100_000, await nursery.StockAsync(nursery.PepperLot));
        Assert.Equal(500 - 144, await nursery.StockAsync(other));
        Assert.Equal(other.Id, (await nursery.StateAsync(batch.Id)).LotId);
    }
}
