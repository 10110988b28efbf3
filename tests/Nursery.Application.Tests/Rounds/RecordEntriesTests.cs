using Nursery.Application.Rounds;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.Ledger;
using Nursery.Domain.Refusals;
using Nursery.Domain.Tasks;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Application.Tests.Rounds;

public sealed class RecordEntriesTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    [Fact]
    public async Task HandleAsync_SameEntryTwice_IsAppliedThenRepeated()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper);
        await nursery.SowAsync(batch);
        var entry = nursery.Entry(new PlantsCounted(batch.Id, CountWhat.CellsUp, 40, null, null, false));
        Assert.Equal(EntryOutcome.Applied, (await nursery.SendAsync(entry)).Outcome);
        var before = await nursery.LedgerCountAsync();

        Assert.Equal(EntryOutcome.Repeated, (await nursery.SendAsync(entry)).Outcome);

        Assert.Equal(before, await nursery.LedgerCountAsync());
    }

    [Fact]
    public async Task HandleAsync_SameIdOtherContent_IsRefused()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper);
        await nursery.SowAsync(batch);
        var entry = nursery.Entry(new PlantsCounted(batch.Id, CountWhat.CellsUp, 40, null, null, false));
        await nursery.SendAsync(entry);

        foreach (var other in new[]
        {
            entry with { Content = new PlantsCounted(batch.Id, CountWhat.CellsUp, 41, null, null, false) },
            entry with { Content = new PlantsLost(batch.Id, 1, "damping off") },
            entry with { HappenedAt = entry.HappenedAt.Minus(NodaTime.Duration.FromMinutes(1)) },
        })
        {
            Assert.IsType<EntryDiffers>((await nursery.SendAsync(other)).Problem);
        }

        Assert.Equal(40, (await nursery.StateAsync(batch.Id)).CellsUp);
    }

    [Fact]
    public async Task HandleAsync_OneRefusedAmongMany_KeepsNoOtherBack()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper);
        await nursery.SowAsync(batch);

        var results = await nursery.Get<RecordEntries>().HandleAsync(
            [
                nursery.Entry(new PlantsLost(batch.Id, 3, "slugs")),
                nursery.Entry(new PlantsLost(Guid.CreateVersion7(), 3, "slugs")),
                nursery.Entry(new SurfaceSeen("W1", SurfaceState.Dry)),
                nursery.Entry(new TaskDone(Guid.CreateVersion7())),
                nursery.Entry(new PlantsLost(batch.Id, 4, "slugs")),
            ],
            nursery.Staff);

        Assert.Equal(
            [EntryOutcome.Applied, EntryOutcome.Refused, EntryOutcome.Applied, EntryOutcome.Refused, EntryOutcome.Applied],
            results.Select(result => result.Outcome));
        Assert.IsType<NotFound>(results[1].Problem);
        Assert.Equal("taskId", results[3].Problem!.Errors[0].Field);
        Assert.Equal(7, (await nursery.StateAsync(batch.Id)).Lost);
    }

    [Fact]
    public async Task HandleAsync_SowDone_SowsPlacesAndTakesSeed()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper, trays: 2, seeds: 2);
        await nursery.ReserveAsync(batch, "G1", 5, nursery.Today, nursery.Today.PlusDays(10));
        await nursery.RecordAsync(new TaskDone((await nursery.TaskAsync(batch.Id, TaskKind.Sow)).Id.Value));

        var state = await nursery.StateAsync(batch.Id);
        Assert.Equal((BatchStage.Sown, nursery.Today, 288, 144), (state.Stage, state.SownOn!.Value, state.SeedsSown, state.CellsSown));
        Assert.Equal(100_000 - 288, await nursery.StockAsync(nursery.PepperLot));
        Assert.Equal([("G1", new SpaceRun(1, 2), new SpaceRun(5, 2))], await nursery.StandingAsync());
        Assert.Equal(TaskState.Done, (await nursery.TaskAsync(batch.Id, TaskKind.Sow)).State);
        Assert.Equal(TaskState.Open, (await nursery.TaskAsync(batch.Id, TaskKind.FirstWatering)).State);
    }

    [Fact]
    public async Task HandleAsync_UndoOfSowDone_ReopensTheSameRowAndReturnsTheSeed()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper, trays: 2, seeds: 2);
        await nursery.ReserveAsync(batch, "G1", 5, nursery.Today, nursery.Today.PlusDays(10));
        var task = await nursery.TaskAsync(batch.Id, TaskKind.Sow);
        var done = await nursery.RecordAsync(new TaskDone(task.Id.Value));
        await nursery.RecordAsync(new EntryUndone(done));

        var again = await nursery.TaskAsync(batch.Id, TaskKind.Sow);
        Assert.Equal((task.Id, TaskState.Open, task.DueOn), (again.Id, again.State, again.DueOn));
        Assert.Null(again.DoneBy);
        Assert.Equal(BatchState.Planned, await nursery.StateAsync(batch.Id));
        Assert.Equal(100_000, await nursery.StockAsync(nursery.PepperLot));
        Assert.Empty(await nursery.StandingAsync());
        Assert.Equal(TaskState.Withdrawn, (await nursery.TaskAsync(batch.Id, TaskKind.FirstWatering)).State);
    }

    [Fact]
    public async Task HandleAsync_SecondPersonsSowDone_StandsWhenTheFirstIsUndone()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper);
        var task = await nursery.TaskAsync(batch.Id, TaskKind.Sow);
        var first = await nursery.RecordAsync(new TaskDone(task.Id.Value));
        var second = await nursery.RecordAsync(new TaskDone(task.Id.Value), nursery.HeadGrower);
        Assert.Equal(100_000 - 144, await nursery.StockAsync(nursery.PepperLot));

        await nursery.RecordAsync(new EntryUndone(first));

        Assert.Equal(BatchStage.Sown, (await nursery.StateAsync(batch.Id)).Stage);
        Assert.Equal(TaskState.Done, (await nursery.TaskAsync(batch.Id, TaskKind.Sow)).State);
        Assert.Equal(100_000 - 144, await nursery.StockAsync(nursery.PepperLot));

        await nursery.RecordAsync(new EntryUndone(second));

        Assert.Null((await nursery.StateAsync(batch.Id)).SownOn);
        Assert.Equal(TaskState.Open, (await nursery.TaskAsync(batch.Id, TaskKind.Sow)).State);
        Assert.Equal(100_000, await nursery.StockAsync(nursery.PepperLot));
    }

    [Fact]
    public async Task HandleAsync_WaterDone_OpensTheNextOneAndUndoReopensTheSameRow()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper);
        await nursery.SowAsync(batch);
        await nursery.DoAsync(batch.Id, TaskKind.FirstWatering);
        var first = await nursery.TaskAsync(batch.Id, TaskKind.Water);
        var done = await nursery.RecordAsync(new TaskDone(first.Id.Value));
        var second = await nursery.TaskAsync(batch.Id, TaskKind.Water, 2);
        Assert.Equal((TaskState.Open, nursery.Today.PlusDays(2)), (second.State, second.DueOn));

        await nursery.RecordAsync(new EntryUndone(done));

        var again = await nursery.TaskAsync(batch.Id, TaskKind.Water);
        Assert.Equal((first.Id, TaskState.Open), (again.Id, again.State));
        Assert.Equal(TaskState.Withdrawn, (await nursery.TaskAsync(batch.Id, TaskKind.Water, 2)).State);
        await nursery.RecordAsync(new TaskDone(first.Id.Value));
        Assert.Equal((second.Id, TaskState.Open), (await nursery.TaskAsync(batch.Id, TaskKind.Water, 2)) is var row ? (row.Id, row.State) : default);
    }

    [Fact]
    public async Task HandleAsync_UndoBeforeItsTarget_TakesItBackOnArrival()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper);
        await nursery.SowAsync(batch);
        var id = nursery.NewEntryId();
        await nursery.RecordAsync(new EntryUndone(id));
        await nursery.RecordAsync(new PlantsCounted(batch.Id, CountWhat.CellsUp, 40, null, null, false), id: id);

        Assert.Null((await nursery.StateAsync(batch.Id)).CellsUp);
        Assert.Equal(BatchStage.Sown, (await nursery.StateAsync(batch.Id)).Stage);
        Assert.Empty(await nursery.Get<RebuildStates>().HandleAsync(nursery.Administrator));
    }

    [Fact]
    public async Task HandleAsync_UndoAndTargetAtTheSameMoment_EndUndone()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper);
        await nursery.SowAsync(batch);
        for (var round = 0; round < 20; round++)
        {
            var id = nursery.NewEntryId();
            var results = await Task.WhenAll(
                nursery.SendAsync(nursery.Entry(new PlantsLost(batch.Id, 5, "race"), id)),
                nursery.SendAsync(nursery.Entry(new EntryUndone(id))));
            Assert.All(results, result => Assert.Equal(EntryOutcome.Applied, result.Outcome));
            Assert.Equal(0, (await nursery.StateAsync(batch.Id)).Lost);
        }
    }

    [Fact]
    public async Task HandleAsync_SecondWorkerSameTask_IsAcceptedAndKeepsTheFirst()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper);
        await nursery.SowAsync(batch);
        await nursery.DoAsync(batch.Id, TaskKind.FirstWatering);
        var task = await nursery.TaskAsync(batch.Id, TaskKind.Water);
        var first = await nursery.RecordAsync(new TaskDone(task.Id.Value), nursery.Staff);
        nursery.Clock.Advance(TimeSpan.FromMinutes(5));
        await nursery.RecordAsync(new TaskDone(task.Id.Value), nursery.HeadGrower);

        Assert.Equal(nursery.Staff.Name, (await nursery.TaskAsync(batch.Id, TaskKind.Water)).DoneBy);
        Assert.Equal(TaskState.Open, (await nursery.TaskAsync(batch.Id, TaskKind.Water, 2)).State);

        // Taking the first back leaves the other's word.
        await nursery.RecordAsync(new EntryUndone(first));
        var still = await nursery.TaskAsync(batch.Id, TaskKind.Water);
        Assert.Equal((TaskState.Done, nursery.HeadGrower.Name), (still.State, still.DoneBy));
    }

    [Fact]
    public async Task HandleAsync_LateEntry_CountsForItsOwnDay()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper);
        await nursery.SowAsync(batch);
        nursery.Clock.Advance(TimeSpan.FromDays(6));
        await nursery.RecordAsync(new PlantsCounted(batch.Id, CountWhat.CellsUp, 100, null, null, false));
        var at = nursery.Clock.GetUtcNow().AddDays(-2);
        await nursery.RecordAsync(new PlantsCounted(batch.Id, CountWhat.CellsUp, 30, null, null, false), at: at);

        var state = await nursery.StateAsync(batch.Id);
        Assert.Equal(nursery.Today.PlusDays(-2), state.FirstUpOn);
        Assert.Equal(nursery.Today, state.LookedOn);
        Assert.Equal((100, nursery.Today), (state.CellsUp, state.CountedOn));
    }

    [Fact]
    public async Task HandleAsync_StageFollows_FromSownToHandedOver()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper, trays: 2, seeds: 2);
        await nursery.SowAsync(batch);
        Assert.Equal(BatchStage.Sown, (await nursery.StateAsync(batch.Id)).Stage);

        nursery.Clock.Advance(TimeSpan.FromDays(8));
        await nursery.RecordAsync(new PlantsCounted(batch.Id, CountWhat.Seedlings, 200, null, null, false));
        Assert.Equal(BatchStage.Emerging, (await nursery.StateAsync(batch.Id)).Stage);

        await nursery.RecordAsync(new TraysMoved(batch.TraySetCode, new TrayChoice(2, null), "W1", 3));
        Assert.Equal(BatchStage.GrowingOn, (await nursery.StateAsync(batch.Id)).Stage);
        Assert.Equal(TaskState.Done, (await nursery.TaskAsync(batch.Id, TaskKind.MoveOffHeat)).State);

        nursery.Clock.Advance(TimeSpan.FromDays(14));
        await nursery.RecordAsync(new TaskDone((await nursery.TaskAsync(batch.Id, TaskKind.Thin)).Id.Value));
        await nursery.RecordAsync(new TraysMoved(batch.TraySetCode, new TrayChoice(null, [1, 2]), "D1", null));
        Assert.Equal(BatchStage.HardeningOff, (await nursery.StateAsync(batch.Id)).Stage);
        Assert.Equal([("D1", new SpaceRun(1, 2), (SpaceRun?)null)], await nursery.StandingAsync());

        nursery.Clock.Advance(TimeSpan.FromDays(10));
        await nursery.Get<Application.Tasks.RaiseTasks>().HandleAsync();
        await nursery.RecordAsync(new TaskDone((await nursery.TaskAsync(batch.Id, TaskKind.HandOver)).Id.Value));
        Assert.Equal(BatchStage.HandedOver, (await nursery.StateAsync(batch.Id)).Stage);
        Assert.Empty(await nursery.StandingAsync());
        Assert.Equal([TaskKind.ClearBench], (await nursery.TasksAsync()).Where(task => task.State == TaskState.Open).Select(task => task.Kind));
    }

    [Fact]
    public async Task HandleAsync_NotYet_PutsTheLookOffAndStaysOpen()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper);
        await nursery.SowAsync(batch);
        nursery.Clock.Advance(TimeSpan.FromDays(6));
        var look = await nursery.TaskAsync(batch.Id, TaskKind.EmergenceCheck);
        await nursery.RecordAsync(new TaskNotYet(look.Id.Value, "nothing up"));

        var later = await nursery.TaskAsync(batch.Id, TaskKind.EmergenceCheck);
        Assert.Equal((look.Id, TaskState.Open, nursery.Today.PlusDays(2)), (later.Id, later.State, later.DueOn));
        Assert.IsType<InvalidFields>((await nursery.SendAsync(nursery.Entry(new TaskNotYet(look.Id.Value, " ")))).Problem);
        Assert.IsType<InvalidFields>((await nursery.SendAsync(nursery.Entry(new TaskNotYet(look.Id.Value, "a\0b")))).Problem);
    }

    [Theory]
    [InlineData(CountWhat.CellsUp, 145, null, "value")]
    [InlineData(CountWhat.CellsUp, -1, null, "value")]
    [InlineData(CountWhat.Seedlings, 289, null, "value")]
    [InlineData(CountWhat.Blanks, 37, 36, "value")]
    [InlineData(CountWhat.CellsUp, 1, 0, "cells")]
    [InlineData(CountWhat.CellsUp, 1, 145, "cells")]
    public async Task HandleAsync_CountOutOfRange_IsRefusedByField(CountWhat what, int value, int? cells, string field)
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper, trays: 2, seeds: 2);
        await nursery.SowAsync(batch);

        var result = await nursery.SendAsync(nursery.Entry(new PlantsCounted(batch.Id, what, value, null, cells, cells is not null)));

        Assert.Contains(Assert.IsType<InvalidFields>(result.Problem).Errors, error => error.Field == field);
    }

    [Fact]
    public async Task HandleAsync_BeforeSowing_CountLossAndMoveAreRefused()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper);

        foreach (var content in new EntryContent[]
        {
            new PlantsCounted(batch.Id, CountWhat.CellsUp, 1, null, null, false),
            new PlantsLost(batch.Id, 1, "slugs"),
            new TraysMoved(batch.TraySetCode, new TrayChoice(1, null), "W1", null),
        })
        {
            Assert.IsType<NotSownYet>((await nursery.SendAsync(nursery.Entry(content))).Problem);
        }
    }

    [Fact]
    public async Task HandleAsync_ClockFarAhead_IsRefused()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var entry = nursery.Entry(new SurfaceSeen("W1", SurfaceState.Dry), at: nursery.Clock.GetUtcNow().AddHours(25));

        Assert.Equal("happenedAt", (await nursery.SendAsync(entry)).Problem!.Errors[0].Field);
    }

    [Fact]
    public async Task HandleAsync_UndoOfAPlanEntry_IsRefused()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper);
        var story = (await nursery.Get<Application.Batches.ShowBatch>().HandleAsync(batch.Id, nursery.Staff)).Story;

        var result = await nursery.SendAsync(nursery.Entry(new EntryUndone(Assert.Single(story).EntryId)));

        Assert.Equal("entryId", result.Problem!.Errors[0].Field);
    }

    [Fact]
    public async Task HandleAsync_LotWithTooFewSeeds_RefusesSowDone()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Tomato, trays: 14);
        var result = await nursery.SendAsync(
            nursery.Entry(new TaskDone((await nursery.TaskAsync(batch.Id, TaskKind.Sow)).Id.Value)));

        var low = Assert.IsType<StockTooLow>(result.Problem);
        Assert.Equal((1000, 1008), (low.Facts["stock"], low.Facts["needed"]));
        Assert.Equal(1000, await nursery.StockAsync(nursery.TomatoLot));
    }
}
