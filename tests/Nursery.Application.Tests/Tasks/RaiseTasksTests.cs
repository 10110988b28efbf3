using Microsoft.Extensions.DependencyInjection;
using Nursery.Application.Rounds;
using Nursery.Application.Tasks;
using Nursery.Domain.Ledger;
using Nursery.Domain.Tasks;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Application.Tests.Tasks;

public sealed class RaiseTasksTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    [Fact]
    public async Task HandleAsync_Twice_GivesTheSameRows()
    {
        await using var nursery = await BusyAsync();
        await nursery.Get<RaiseTasks>().HandleAsync();
        var before = await RowsAsync(nursery);
        await nursery.Get<RaiseTasks>().HandleAsync();

        Assert.NotEmpty(before);
        Assert.Equal(before, await RowsAsync(nursery));
    }

    [Fact]
    public async Task HandleAsync_LateOrEveryHour_GivesTheSameRows()
    {
        await using var hourly = await BusyAsync();
        await using var late = await BusyAsync();
        for (var day = 0; day < 40; day++)
        {
            hourly.Clock.Advance(TimeSpan.FromDays(1));
            await hourly.Get<RaiseTasks>().HandleAsync();
        }

        late.Clock.Advance(TimeSpan.FromDays(40));
        await late.Get<RaiseTasks>().HandleAsync();

        Assert.Equal(Shape(await hourly.TasksAsync()), Shape(await late.TasksAsync()));
    }

    [Fact]
    public async Task HandleAsync_PlanFarAhead_RaisesThirtyDaysBefore()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await nursery.PlanAsync(nursery.Pepper, inDays: 31);
        Assert.Empty(await nursery.TasksAsync());

        nursery.Clock.Advance(TimeSpan.FromDays(1));
        await nursery.Get<RaiseTasks>().HandleAsync();

        Assert.Equal(TaskKind.Sow, Assert.Single(await nursery.TasksAsync()).Kind);
    }

    [Fact]
    public async Task HandleAsync_TwoProcessesAtOnceManyRounds_GiveOneRowEachAndNoFailure()
    {
        await using var nursery = await BusyAsync();
        await using var other = nursery.NewProcess(database);
        for (var round = 0; round < 25; round++)
        {
            nursery.Clock.Advance(TimeSpan.FromDays(1));
            await Task.WhenAll(
                Task.Run(() => nursery.Get<RaiseTasks>().HandleAsync()),
                Task.Run(() => other.GetRequiredService<RaiseTasks>().HandleAsync()),
                Task.Run(() => nursery.Get<RaiseTasks>().HandleAsync()),
                Task.Run(() => other.GetRequiredService<RaiseTasks>().HandleAsync()));
            var rows = await nursery.TasksAsync();
            Assert.Equal(rows.Count, rows.Select(row => (row.Kind, row.SubjectId, row.Occurrence)).Distinct().Count());
            Assert.All(
                rows.Where(row => row.State == TaskState.Open).GroupBy(row => (row.Kind, row.SubjectId)), group => Assert.Single(group));
        }
    }

    [Fact]
    public async Task HandleAsync_WhilePeopleReport_ResurrectsNothingDone()
    {
        await using var nursery = await BusyAsync();
        await using var other = nursery.NewProcess(database);
        for (var round = 0; round < 15; round++)
        {
            nursery.Clock.Advance(TimeSpan.FromDays(2));
            var water = (await nursery.TasksAsync()).Where(task => task.Kind is (TaskKind.Water or TaskKind.FirstWatering) && task.State == TaskState.Open).ToList();
            Assert.NotEmpty(water);
            var raising = Task.Run(() => other.GetRequiredService<RaiseTasks>().HandleAsync());
            await Task.WhenAll(water.Select(task => (Task)nursery.RecordAsync(new TaskDone(task.Id.Value))).Append(raising));
            await nursery.Get<RaiseTasks>().HandleAsync();

            var after = (await nursery.TasksAsync()).ToDictionary(task => task.Id);
            Assert.All(water, task => Assert.Equal(TaskState.Done, after[task.Id].State));
        }
    }

    [Fact]
    public async Task HandleAsync_TaskNoLongerNeeded_IsWithdrawnAndComesBackAsTheSameRow()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper);
        await nursery.SowAsync(batch);
        nursery.Clock.Advance(TimeSpan.FromDays(8));
        var look = await nursery.TaskAsync(batch.Id, TaskKind.EmergenceCheck);
        var moved = await nursery.RecordAsync(new TraysMoved(batch.TraySetCode, new TrayChoice(2, null), "W1", 1));
        Assert.Equal(TaskState.Withdrawn, (await nursery.TaskAsync(batch.Id, TaskKind.EmergenceCheck)).State);

        await nursery.RecordAsync(new EntryUndone(moved));

        var again = await nursery.TaskAsync(batch.Id, TaskKind.EmergenceCheck);
        Assert.Equal((look.Id, TaskState.Open), (again.Id, again.State));
    }

    [Fact]
    public async Task ListTasks_Day_HasDueOverdueAndDoneInWalkingOrder()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var lettuce = await nursery.PlanAsync(nursery.Lettuce);
        var pepper = await nursery.PlanAsync(nursery.Pepper);
        var homeless = await nursery.PlanAsync(nursery.Tomato, inDays: 1);
        await nursery.ReserveAsync(lettuce, "C1", 1, nursery.Today, nursery.Today.PlusDays(40));
        await nursery.ReserveAsync(pepper, "G1", 5, nursery.Today, nursery.Today.PlusDays(40));
        await nursery.SowAsync(pepper);

        var today = await nursery.Get<ListTasks>().HandleAsync(null, nursery.Staff);

        Assert.Equal(
            [("G1", TaskKind.Sow, TaskState.Done), ("G1", TaskKind.FirstWatering, TaskState.Open), ("C1", TaskKind.Sow, TaskState.Open)],
            today.Select(task => (task.BenchCode!, task.Kind, task.State)));
        Assert.Equal((5, 6, "H1"), (today[0].FirstSpace, today[0].LastSpace, today[0].House));
        Assert.Equal(nursery.Staff.Name, today[0].DoneBy);

        var tomorrow = await nursery.Get<ListTasks>().HandleAsync(nursery.Today.PlusDays(1), nursery.Staff);
        Assert.DoesNotContain(tomorrow, task => task.State == TaskState.Done);
        Assert.Contains(tomorrow, task => task.BatchId == lettuce.Id);
        Assert.Equal((homeless.Id, (string?)null), (tomorrow[^1].BatchId, tomorrow[^1].BenchCode));
    }

    /// <summary>Batches in several stages.</summary>
    private async Task<TestNursery> BusyAsync()
    {
        var nursery = await TestNursery.OpenAsync(database);
        await nursery.PlanAsync(nursery.Tomato, inDays: 5);
        var pepper = await nursery.PlanAsync(nursery.Pepper, seeds: 2);
        var lettuce = await nursery.PlanAsync(nursery.Lettuce);
        await nursery.SowAsync(pepper);
        await nursery.SowAsync(lettuce);
        await nursery.RecordAsync(new PlantsCounted(pepper.Id, CountWhat.CellsUp, 90, null, null, false));
        return nursery;
    }

    private static async Task<List<object>> RowsAsync(TestNursery nursery) =>
        [.. (await nursery.TasksAsync()).Select(task => (task.Id, task.Kind, task.SubjectId, task.Occurrence, task.DueOn, task.Why, task.State))];

    private static List<object> Shape(List<RoundTask> tasks) =>
        [.. tasks.Select(task => (object)(task.Kind, task.Occurrence, task.DueOn, task.Why, task.State)).OrderBy(row => row.ToString(), StringComparer.Ordinal)];
}
