using Nursery.Application.Rounds;
using Nursery.Application.Tasks;
using Nursery.Domain.Tasks;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Application.Tests.Rounds;

/// <summary>Tasks of benches and houses: they follow what stands there, and what people report.</summary>
public sealed class PlaceTasksTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    [Fact]
    public async Task Look_BenchWithTrays_IsRaisedAndDoneDaily()
    {
        await using var nursery = await InUseAsync();
        var look = await LookAsync(nursery);
        Assert.Equal((nursery.Today.PlusDays(1), 1), (look.DueOn, look.Occurrence));

        nursery.Clock.Advance(TimeSpan.FromDays(3));
        var listed = (await nursery.Get<ListTasks>().HandleAsync(null, nursery.Staff)).Single(task => task.Kind == TaskKind.Look);
        Assert.Equal(("Bench G1", "H1", "G1", (Guid?)null), (listed.Subject, listed.House, listed.BenchCode, listed.BatchId));
        Assert.Equal(2 * 3m / 60, listed.Minutes);
        await nursery.RecordAsync(new TaskDone(listed.Id));

        var next = await LookAsync(nursery);
        Assert.Equal((nursery.Today.PlusDays(1), 2), (next.DueOn, next.Occurrence));
    }

    [Fact]
    public async Task Look_UndoneAndDoneAgain_IsTheSameRow()
    {
        await using var nursery = await InUseAsync();
        var first = await LookAsync(nursery);
        nursery.Clock.Advance(TimeSpan.FromDays(1));
        var done = await nursery.RecordAsync(new TaskDone(first.Id.Value));
        await nursery.RecordAsync(new TaskNotYet((await LookAsync(nursery)).Id.Value, "no time"));

        await nursery.RecordAsync(new EntryUndone(done));

        Assert.Equal(first.Id, (await LookAsync(nursery)).Id);
        await nursery.RecordAsync(new TaskDone(first.Id.Value));
        Assert.Equal(2, (await LookAsync(nursery)).Occurrence);
    }

    [Fact]
    public async Task Look_UndoThatArrivesFirst_KeepsTheTaskOpen()
    {
        await using var nursery = await InUseAsync();
        var look = await LookAsync(nursery);
        var id = nursery.NewEntryId();
        await nursery.RecordAsync(new EntryUndone(id));
        await nursery.RecordAsync(new TaskDone(look.Id.Value), id: id);

        Assert.Equal(look.Id, (await LookAsync(nursery)).Id);
    }

    [Fact]
    public async Task Look_TraysCarriedAway_GoesWithThem()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper);
        await nursery.ReserveAsync(batch, "G1", 1, nursery.Today, nursery.Today.PlusDays(10));
        await nursery.SowAsync(batch);
        nursery.Clock.Advance(TimeSpan.FromHours(1));

        await nursery.RecordAsync(new TraysMoved(batch.TraySetCode, new TrayChoice(2, null), "C1", 1));

        Assert.Equal(nursery.At.Cool.Id, (await LookAsync(nursery)).BenchId);
    }

    [Fact]
    public async Task Scout_HouseWithTrays_IsWeeklyAndOfTheWholeHouse()
    {
        await using var nursery = await InUseAsync();
        var start = nursery.Today;
        nursery.Clock.Advance(TimeSpan.FromDays(9));
        var scout = (await nursery.Get<ListTasks>().HandleAsync(null, nursery.Staff)).Single(task => task.Kind == TaskKind.Scout);
        Assert.Equal((start.PlusDays(7), "House 1", (string?)null), (scout.DueOn, scout.Subject, scout.BenchCode));

        await nursery.RecordAsync(new TaskDone(scout.Id));

        var next = (await nursery.TasksAsync()).Single(task => task is { Kind: TaskKind.Scout, State: TaskState.Open });
        Assert.Equal((2, nursery.Today.PlusDays(7)), (next.Occurrence, next.DueOn));
    }

    [Fact]
    public async Task RaiseTasks_Again_ChangesNothing()
    {
        await using var nursery = await InUseAsync();
        var before = await RowsAsync(nursery);
        await nursery.Get<RaiseTasks>().HandleAsync();
        Assert.Equal(before, await RowsAsync(nursery));
    }

    private async Task<TestNursery> InUseAsync()
    {
        var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper);
        await nursery.ReserveAsync(batch, "G1", 1, nursery.Today, nursery.Today.PlusDays(10));
        await nursery.SowAsync(batch);
        return nursery;
    }

    private static async Task<RoundTask> LookAsync(TestNursery nursery) =>
        (await nursery.TasksAsync()).Single(task => task is { Kind: TaskKind.Look, State: TaskState.Open });

    private static async Task<List<string>> RowsAsync(TestNursery nursery) =>
        [.. (await nursery.TasksAsync()).Select(task => $"{task.Id} {task.Kind} {task.Occurrence} {task.DueOn} {task.State} {task.Why}")];
}
