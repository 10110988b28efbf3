using Nursery.Application.Rounds;
using Nursery.Domain.Refusals;
using Nursery.Domain.Tasks;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Application.Tests.Rounds;

/// <summary>What people did without being asked counts like what they were asked for, and can be taken back as well.</summary>
public sealed class UnplannedWorkTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    [Fact]
    public async Task HandleAsync_ABenchWatered_PutsOffTheWaterOfAllSownBatchesThere_UntilTakenBack()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var here = new[] { await nursery.PlanAsync(nursery.Pepper, trays: 2), await nursery.PlanAsync(nursery.Tomato, trays: 1) };
        var elsewhere = await nursery.PlanAsync(nursery.Lettuce);
        foreach (var (batch, bench) in here.Select(batch => (batch, "G1")).Append((elsewhere, "C1")))
        {
            await nursery.SowAsync(batch);
            await nursery.RecordAsync(new TraysMoved(batch.TraySetCode, new TrayChoice(batch.Trays, null), bench, null));
        }

        nursery.Clock.Advance(TimeSpan.FromDays(1));
        var worked = await nursery.RecordAsync(new WorkDone(TaskKind.Water, null, "G1", "by hose"));

        foreach (var batch in here)
        {
            Assert.Equal(nursery.Today, (await nursery.StateAsync(batch.Id)).WateredOn);
        }

        Assert.Null((await nursery.StateAsync(elsewhere.Id)).WateredOn);

        await nursery.RecordAsync(new EntryUndone(worked));

        Assert.Null((await nursery.StateAsync(here[0].Id)).WateredOn);
        Assert.Null((await nursery.StateAsync(here[1].Id)).WateredOn);
        Assert.Empty(await nursery.Get<RebuildStates>().HandleAsync(nursery.Administrator));
    }

    [Fact]
    public async Task HandleAsync_ABatchThinned_WithdrawsItsThinning()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper, trays: 2, seeds: 2);
        await nursery.SowAsync(batch);
        nursery.Clock.Advance(TimeSpan.FromDays(8));
        await nursery.RecordAsync(new PlantsCounted(batch.Id, Domain.Ledger.CountWhat.CellsUp, 140, null, null, false));
        Assert.Equal(TaskState.Open, (await nursery.TaskAsync(batch.Id, TaskKind.Thin)).State);

        await nursery.RecordAsync(new WorkDone(TaskKind.Thin, batch.Id, null, null));

        Assert.Equal(nursery.Today, (await nursery.StateAsync(batch.Id)).ThinnedOn);
        Assert.Equal(TaskState.Withdrawn, (await nursery.TaskAsync(batch.Id, TaskKind.Thin)).State);
    }

    [Theory]
    [InlineData(null, "G1", null, "words")]
    [InlineData(TaskKind.Water, null, null, "batchId")]
    [InlineData(TaskKind.Sow, "G1", null, "task")]
    [InlineData(TaskKind.MoveOffHeat, "G1", null, "task")]
    [InlineData(TaskKind.HandOver, "G1", null, "task")]
    [InlineData(TaskKind.Water, "G1", "a\u0007b", "words")]
    public async Task HandleAsync_WhatCannotBeSaidSo_IsRefusedByField(TaskKind? task, string? bench, string? words, string field)
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var before = await nursery.LedgerCountAsync();

        var result = await nursery.SendAsync(nursery.Entry(new WorkDone(task, null, bench, words)));

        Assert.Equal(field, Assert.Single(Assert.IsType<InvalidFields>(result.Problem).Errors).Field);
        Assert.Equal(before, await nursery.LedgerCountAsync());
    }

    [Fact]
    public async Task HandleAsync_ABatchNotSown_IsRefused()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper);

        var result = await nursery.SendAsync(nursery.Entry(new WorkDone(null, batch.Id, null, "cleaned the drip line")));

        Assert.IsType<NotSownYet>(result.Problem);
    }
}
