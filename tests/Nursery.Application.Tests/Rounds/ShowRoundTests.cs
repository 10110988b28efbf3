using Nursery.Application.Rounds;
using Nursery.Domain.Ledger;
using Nursery.Domain.Tasks;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Application.Tests.Rounds;

/// <summary>What the round knows of today: who did what, what was put off, how the benches looked.</summary>
public sealed class ShowRoundTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    [Fact]
    public async Task Done_Today_NamesTheEntryThatUndoTakesBack()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var task = await SowTaskAsync(nursery);
        Assert.Equal((null, nursery.PepperLot.Code), (task.DoneEntryId, task.LotCode));

        var done = await nursery.RecordAsync(new TaskDone(task.Id));
        Assert.Equal((TaskState.Done, done), await StateAsync(nursery, task));

        await nursery.RecordAsync(new EntryUndone(done));
        Assert.Equal((TaskState.Open, null), await StateAsync(nursery, task));
    }

    [Fact]
    public async Task Done_ByTwo_UndoOfTheFirst_NamesTheSecond()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper, trays: 2);
        await nursery.SowAsync(batch);
        var task = (await nursery.Get<ListTasks>().HandleAsync(null, nursery.Staff)).Single(item => item.Kind == TaskKind.FirstWatering);
        var first = await nursery.RecordAsync(new TaskDone(task.Id), nursery.Staff);
        nursery.Clock.Advance(TimeSpan.FromMinutes(1));
        var second = await nursery.RecordAsync(new TaskDone(task.Id), nursery.HeadGrower);
        Assert.Equal((TaskState.Done, first), await StateAsync(nursery, task));

        await nursery.RecordAsync(new EntryUndone(first));

        Assert.Equal(second, (await StateAsync(nursery, task)).Entry);
    }

    [Fact]
    public async Task NotYet_SaidTwice_ShowsTheLastReasonUntilTheNextDay()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var task = await SowTaskAsync(nursery);
        await nursery.RecordAsync(new TaskNotYet(task.Id, "no time"));
        nursery.Clock.Advance(TimeSpan.FromMinutes(1));
        var last = await nursery.RecordAsync(new TaskNotYet(task.Id, "tray not found"));

        Assert.Equal(new PutOff(last, "tray not found", nursery.Staff.Name), (await FindAsync(nursery, task)).PutOff);
        nursery.Clock.Advance(TimeSpan.FromDays(1));
        Assert.Null((await FindAsync(nursery, task)).PutOff);
    }

    [Fact]
    public async Task Surface_LastSeenToday_IsShownUnlessTakenBack()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await nursery.RecordAsync(new SurfaceSeen("G1", SurfaceState.Dry));
        nursery.Clock.Advance(TimeSpan.FromMinutes(1));
        var wet = await nursery.RecordAsync(new SurfaceSeen("G1", SurfaceState.Wet));
        Assert.Equal(SurfaceState.Wet, await SurfaceAsync(nursery));

        await nursery.RecordAsync(new EntryUndone(wet));

        Assert.Equal(SurfaceState.Dry, await SurfaceAsync(nursery));
        nursery.Clock.Advance(TimeSpan.FromDays(1));
        Assert.Null(await SurfaceAsync(nursery));
    }

    [Fact]
    public async Task Check_OfTraysOnHeat_SaysWhatShouldBeUp_AndLessOnAnEarlierDay()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper, trays: 2);
        await nursery.ReserveAsync(batch, "G1", null, nursery.Today, nursery.Today.PlusDays(20));
        await nursery.SowAsync(batch);

        var early = await ExpectedAfterAsync(nursery, 8);
        var late = await ExpectedAfterAsync(nursery, 16);

        Assert.True(early.Low < late.Low && early.High < late.High, $"{early} {late}");
        Assert.InRange(late.Low, 0.4, late.High);
        Assert.True(late.High <= 1);
    }

    private static async Task<ExpectedShare> ExpectedAfterAsync(TestNursery nursery, int days)
    {
        var on = nursery.Today.PlusDays(days);
        var tasks = await nursery.Get<ListTasks>().HandleAsync(on, nursery.Staff);
        return tasks.First(task => task.Kind == TaskKind.EmergenceCheck).Expected!;
    }

    [Fact]
    public async Task Others_AtWorkToday_AreNamedWithTheBenchOfTheirLastReport()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await nursery.RecordAsync(new SurfaceSeen("C1", SurfaceState.Damp), nursery.HeadGrower);
        nursery.Clock.Advance(TimeSpan.FromMinutes(2));
        await nursery.RecordAsync(new SurfaceSeen("G1", SurfaceState.Dry), nursery.HeadGrower);
        await nursery.RecordAsync(new SurfaceSeen("W1", SurfaceState.Wet));

        var other = Assert.Single((await nursery.Get<ShowRound>().HandleAsync(nursery.Staff)).Others);

        Assert.Equal((nursery.HeadGrower.Name, "G1", 2), (other.Name, other.BenchCode, other.Reports));
        Assert.Equal(nursery.Clock.GetUtcNow(), other.At.ToDateTimeOffset());
        nursery.Clock.Advance(TimeSpan.FromDays(1));
        Assert.Empty((await nursery.Get<ShowRound>().HandleAsync(nursery.Staff)).Others);
    }

    [Fact]
    public async Task Benches_InWalkingOrder_WithTheirHeat()
    {
        await using var nursery = await TestNursery.OpenAsync(database);

        var round = await nursery.Get<ShowRound>().HandleAsync(nursery.Staff);

        Assert.Equal(["G1", "W1", "C1", "D1"], round.Benches.Select(bench => bench.Code));
        Assert.Equal([3, 0, 0, 0], round.Benches.Select(bench => bench.SetpointsC.Count));
        Assert.Equal(nursery.Today, round.Day);
    }

    [Fact]
    public async Task MoveOffHeat_WithAPlannedBench_NamesIt()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper, trays: 2);
        await nursery.ReserveAsync(batch, "G1", 5, nursery.Today, nursery.Today.PlusDays(10));
        await nursery.ReserveAsync(batch, "W1", 9, nursery.Today.PlusDays(10), nursery.Today.PlusDays(50));
        await nursery.SowAsync(batch);
        nursery.Clock.Advance(TimeSpan.FromDays(10));

        var move = (await nursery.Get<ListTasks>().HandleAsync(null, nursery.Staff)).Single(task => task.Kind == TaskKind.MoveOffHeat);

        Assert.Equal(("G1", "W1"), (move.BenchCode, move.NextBench));
    }

    private static async Task<TaskItem> SowTaskAsync(TestNursery nursery)
    {
        await nursery.PlanAsync(nursery.Pepper, trays: 2);
        return (await nursery.Get<ListTasks>().HandleAsync(null, nursery.Staff)).Single(task => task.Kind == TaskKind.Sow);
    }

    private static async Task<TaskItem> FindAsync(TestNursery nursery, TaskItem task) =>
        (await nursery.Get<ShowRound>().HandleAsync(nursery.Staff)).Tasks.Single(item => item.Id == task.Id);

    private static async Task<(TaskState State, Guid? Entry)> StateAsync(TestNursery nursery, TaskItem task)
    {
        var found = await FindAsync(nursery, task);
        return (found.State, found.DoneEntryId);
    }

    private static async Task<SurfaceState?> SurfaceAsync(TestNursery nursery) =>
        (await nursery.Get<ShowRound>().HandleAsync(nursery.Staff)).Benches.Single(bench => bench.Code == "G1").Surface?.State;
}
