using Nursery.Application.Batches;
using Nursery.Application.Rounds;
using Nursery.Application.Tasks;
using Nursery.Domain.Batches;
using Nursery.Domain.Ledger;
using Nursery.Domain.Tasks;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Application.Tests.Rounds;

/// <summary>The later half of a batch's life, through the entries people send.</summary>
public sealed class SeasonTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    [Fact]
    public async Task HandleAsync_HardenOffDone_CarriesToThePlannedBench()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await GrownAsync(nursery);

        await nursery.DoAsync(batch.Id, TaskKind.HardenOff);

        Assert.Equal("D1", Assert.Single(await nursery.StandingAsync()).Bench);
        Assert.Equal((BatchStage.HardeningOff, nursery.Today), (await nursery.StateAsync(batch.Id)) is var state ? (state.Stage, state.HardenedOn) : default);
    }

    [Fact]
    public async Task HandleAsync_ReadyCheck_NotReadyPutsOffAndReadyEndsIt()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await GrownAsync(nursery);
        nursery.Clock.Advance(TimeSpan.FromDays(10));
        var check = await nursery.TaskAsync(batch.Id, TaskKind.ReadyCheck);
        await nursery.RecordAsync(new TaskNotYet(check.Id.Value, "no time"));
        Assert.Equal(check.DueOn, (await nursery.TaskAsync(batch.Id, TaskKind.ReadyCheck)).DueOn);

        await nursery.RecordAsync(new TaskNotYet(check.Id.Value, "not ready yet"));
        Assert.Equal(nursery.Today.PlusDays(2), (await nursery.TaskAsync(batch.Id, TaskKind.ReadyCheck)).DueOn);

        nursery.Clock.Advance(TimeSpan.FromDays(2));
        await nursery.DoAsync(batch.Id, TaskKind.ReadyCheck);
        Assert.Equal(BatchStage.Ready, (await nursery.StateAsync(batch.Id)).Stage);
        Assert.DoesNotContain(await nursery.TasksAsync(), task => task is { Kind: TaskKind.ReadyCheck, State: TaskState.Open });
    }

    [Fact]
    public async Task HandleAsync_HandedOver_ClearsTheBenchWhereTheyStood()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await GrownAsync(nursery);
        await nursery.DoAsync(batch.Id, TaskKind.HandOver);

        var clear = (await nursery.Get<ListTasks>().HandleAsync(null, nursery.Staff)).Single(task => task.Kind == TaskKind.ClearBench);
        Assert.Equal(("C1", 1, nursery.Today), (clear.BenchCode, clear.FirstSpace, clear.DueOn));
        await nursery.RecordAsync(new TaskDone(clear.Id));

        Assert.Equal(nursery.Today, (await nursery.StateAsync(batch.Id)).ClearedOn);
        Assert.DoesNotContain(await nursery.TasksAsync(), task => task.State == TaskState.Open);
    }

    [Fact]
    public async Task HandleAsync_SurfaceSeen_MovesTheWaterOfThatBenchAndUndoMovesItBack()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper);
        await nursery.ReserveAsync(batch, "G1", 1, nursery.Today, nursery.Today.PlusDays(10));
        await nursery.SowAsync(batch);
        await nursery.DoAsync(batch.Id, TaskKind.FirstWatering);
        nursery.Clock.Advance(TimeSpan.FromDays(1));
        var calendar = nursery.Today.PlusDays(1);
        Assert.Equal(calendar, await WaterOnAsync(nursery, batch.Id));

        await nursery.RecordAsync(new SurfaceSeen("C1", SurfaceState.Dry));
        Assert.Equal(calendar, await WaterOnAsync(nursery, batch.Id));

        var dry = await nursery.RecordAsync(new SurfaceSeen("G1", SurfaceState.Dry));
        Assert.Equal(nursery.Today, await WaterOnAsync(nursery, batch.Id));

        await nursery.RecordAsync(new EntryUndone(dry));
        Assert.Equal(calendar, await WaterOnAsync(nursery, batch.Id));
    }

    [Fact]
    public async Task HandleAsync_SownAgainAfterAMistake_IsWateredTheFirstTimeAgain()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper);
        var mistake = await nursery.DoAsync(batch.Id, TaskKind.Sow);
        await nursery.DoAsync(batch.Id, TaskKind.FirstWatering);
        nursery.Clock.Advance(TimeSpan.FromDays(3));
        await nursery.RecordAsync(new EntryUndone(mistake));
        Assert.Equal([TaskKind.Sow], (await nursery.TasksAsync()).Where(task => task.State != TaskState.Withdrawn).Select(task => task.Kind));

        await nursery.DoAsync(batch.Id, TaskKind.Sow);

        Assert.Equal(
            (TaskState.Open, nursery.Today),
            (await nursery.TaskAsync(batch.Id, TaskKind.FirstWatering)) is var task ? (task.State, task.DueOn) : default);
    }

    private static async Task<NodaTime.LocalDate> WaterOnAsync(TestNursery nursery, Guid batch) =>
        (await nursery.TaskAsync(batch, TaskKind.Water)).DueOn;

    /// <summary>Pepper on a bench under light on day 46 of 56, with hardening off planned from there.</summary>
    private static async Task<PlannedBatch> GrownAsync(TestNursery nursery)
    {
        var batch = await nursery.PlanAsync(nursery.Pepper);
        await nursery.ReserveAsync(batch, "G1", 1, nursery.Today, nursery.Today.PlusDays(10));
        await nursery.ReserveAsync(batch, "C1", 1, nursery.Today.PlusDays(10), nursery.Today.PlusDays(46));
        await nursery.ReserveAsync(batch, "D1", 1, nursery.Today.PlusDays(46), nursery.Today.PlusDays(56));
        await nursery.SowAsync(batch);
        await nursery.DoAsync(batch.Id, TaskKind.FirstWatering);
        nursery.Clock.Advance(TimeSpan.FromDays(10));
        await nursery.DoAsync(batch.Id, TaskKind.MoveOffHeat);
        nursery.Clock.Advance(TimeSpan.FromDays(36));
        await nursery.Get<RaiseTasks>().HandleAsync();
        return batch;
    }
}
