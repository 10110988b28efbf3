using Nursery.Application.Batches;
using Nursery.Application.Rounds;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.Tasks;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Application.Tests.Rounds;

/// <summary>'Move off heat' done carries the trays, in the books, where the plan has them next.</summary>
public sealed class MoveOffHeatTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    private static readonly (string, SpaceRun, SpaceRun?) OnHeat = ("G1", new(1, 2), new(5, 2));
    private static readonly (string, SpaceRun, SpaceRun?) OnBench = ("W1", new(1, 2), new(9, 2));

    [Fact]
    public async Task Done_PlannedBench_StandsThereAndUndoBringsItBack()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var (batch, task) = await OnHeatAsync(nursery);
        var done = await nursery.RecordAsync(new TaskDone(task));
        Assert.Equal([OnBench], await nursery.StandingAsync());
        Assert.Equal(BatchStage.GrowingOn, (await nursery.StateAsync(batch.Id)).Stage);

        await nursery.RecordAsync(new EntryUndone(done));

        Assert.Equal([OnHeat], await nursery.StandingAsync());
        Assert.Equal(BatchStage.Sown, (await nursery.StateAsync(batch.Id)).Stage);
        Assert.Equal(TaskState.Open, (await nursery.TaskAsync(batch.Id, TaskKind.MoveOffHeat)).State);
    }

    [Fact]
    public async Task Undo_OfOneOfTwoPeoplesDone_LeavesTheTraysOnTheBench()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var (batch, task) = await OnHeatAsync(nursery);
        var first = await nursery.RecordAsync(new TaskDone(task), nursery.Staff);
        nursery.Clock.Advance(TimeSpan.FromMinutes(10));
        await nursery.RecordAsync(new TaskDone(task), nursery.HeadGrower);

        await nursery.RecordAsync(new EntryUndone(first));

        Assert.Equal([OnBench], await nursery.StandingAsync());
        Assert.Equal(BatchStage.GrowingOn, (await nursery.StateAsync(batch.Id)).Stage);
        Assert.Equal(TaskState.Done, (await nursery.TaskAsync(batch.Id, TaskKind.MoveOffHeat)).State);
    }

    [Fact]
    public async Task Done_AfterSomeoneSaidWhere_DoesNotMoveThemAgain()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var (batch, task) = await OnHeatAsync(nursery);
        await nursery.RecordAsync(new TraysMoved(batch.TraySetCode, new TrayChoice(2, null), "C1", 1));
        nursery.Clock.Advance(TimeSpan.FromMinutes(10));
        await nursery.RecordAsync(new TaskDone(task));

        Assert.Equal([("C1", new SpaceRun(1, 2), new SpaceRun(1, 2))], await nursery.StandingAsync());
    }

    [Fact]
    public async Task Moved_SomeTraysOnly_SplitsTheStanding()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var (batch, _) = await OnHeatAsync(nursery);
        await nursery.RecordAsync(new TraysMoved(batch.TraySetCode, new TrayChoice(null, [2]), "W1", 20));

        Assert.Equal(
            [("G1", new SpaceRun(1, 1), new SpaceRun(5, 1)), ("W1", new SpaceRun(2, 1), new SpaceRun(20, 1))],
            await nursery.StandingAsync());
    }

    private static async Task<(PlannedBatch Batch, Guid Task)> OnHeatAsync(TestNursery nursery)
    {
        var batch = await nursery.PlanAsync(nursery.Pepper, trays: 2);
        await nursery.ReserveAsync(batch, "G1", 5, nursery.Today, nursery.Today.PlusDays(10));
        await nursery.ReserveAsync(batch, "W1", 9, nursery.Today.PlusDays(10), nursery.Today.PlusDays(50));
        await nursery.SowAsync(batch);
        Assert.Equal([OnHeat], await nursery.StandingAsync());
        nursery.Clock.Advance(TimeSpan.FromDays(9));
        return (batch, (await nursery.TaskAsync(batch.Id, TaskKind.MoveOffHeat)).Id.Value);
    }
}
