using Nursery.Application.Rounds;
using Nursery.Domain.Batches;
using Nursery.Domain.Ledger;
using Nursery.Domain.Refusals;
using Nursery.Domain.Tasks;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Application.Tests.Rounds;

/// <summary>Entries that come together are stored together; nobody may be able to tell.</summary>
public sealed class RecordTogetherTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    private static readonly EntryOutcome[] AllApplied = [EntryOutcome.Applied, EntryOutcome.Applied, EntryOutcome.Applied];

    [Fact]
    public async Task HandleAsync_SowCountAndLossInOneCall_AllCount()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper, seeds: 2);
        var sow = await nursery.TaskAsync(batch.Id, TaskKind.Sow);

        var results = await SendAsync(
            nursery,
            new TaskDone(sow.Id.Value),
            new PlantsCounted(batch.Id, CountWhat.Seedlings, 200, null, null, false),
            new PlantsLost(batch.Id, 5, "slugs"));

        Assert.Equal(AllApplied, results.Select(result => result.Outcome));
        var state = await nursery.StateAsync(batch.Id);
        Assert.Equal((BatchStage.Emerging, 200m, 5, 288), (state.Stage, state.CountedUp!.Value, state.Lost, state.SeedsSown));
    }

    [Fact]
    public async Task HandleAsync_CountBeforeSowingInOneCall_IsRefusedAndTheSowingIsNot()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper);
        var sow = await nursery.TaskAsync(batch.Id, TaskKind.Sow);

        var results = await SendAsync(
            nursery, new PlantsCounted(batch.Id, CountWhat.Seedlings, 20, null, null, false), new TaskDone(sow.Id.Value));

        Assert.IsType<NotSownYet>(results[0].Problem);
        Assert.Equal(EntryOutcome.Applied, results[1].Outcome);
        Assert.Null((await nursery.StateAsync(batch.Id)).CountedUp);
    }

    [Fact]
    public async Task HandleAsync_TwoSowingsTheLotIsTooSmallFor_SowsTheFirst()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var one = await nursery.PlanAsync(nursery.Pepper, trays: 40, cells: 512, seeds: 4);
        var two = await nursery.PlanAsync(nursery.Pepper, trays: 40, cells: 512, seeds: 4);

        var results = await SendAsync(
            nursery,
            new TaskDone((await nursery.TaskAsync(one.Id, TaskKind.Sow)).Id.Value),
            new TaskDone((await nursery.TaskAsync(two.Id, TaskKind.Sow)).Id.Value));

        Assert.Equal(EntryOutcome.Applied, results[0].Outcome);
        Assert.IsType<StockTooLow>(results[1].Problem);
        Assert.Equal(100_000 - (40 * 512 * 4), await nursery.StockAsync(nursery.PepperLot));
    }

    [Fact]
    public async Task HandleAsync_EntryAndItsUndoInOneCall_LeaveNothing()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper);
        await nursery.SowAsync(batch);
        var loss = nursery.Entry(new PlantsLost(batch.Id, 9, "mice"));

        var results = await nursery.Get<RecordEntries>().HandleAsync(
            [loss, nursery.Entry(new EntryUndone(loss.Id)), nursery.Entry(new PlantsLost(batch.Id, 1, "mice"))], nursery.Staff);

        Assert.Equal(AllApplied, results.Select(result => result.Outcome));
        Assert.Equal(1, (await nursery.StateAsync(batch.Id)).Lost);
    }

    [Fact]
    public async Task HandleAsync_SameEntryTwiceInOneCall_IsAppliedThenRepeated()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper);
        await nursery.SowAsync(batch);
        var loss = nursery.Entry(new PlantsLost(batch.Id, 9, "mice"));

        var results = await nursery.Get<RecordEntries>().HandleAsync([loss, loss], nursery.Staff);

        Assert.Equal([EntryOutcome.Applied, EntryOutcome.Repeated], results.Select(result => result.Outcome));
        Assert.Equal(9, (await nursery.StateAsync(batch.Id)).Lost);
    }

    [Fact]
    public async Task HandleAsync_ManyBatchesInOneCall_EndAsWhenSentOneByOne()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var together = await WorkAsync(nursery, (entries, send) => send(entries));
        var oneByOne = await WorkAsync(nursery, async (entries, send) =>
        {
            foreach (var entry in entries)
            {
                await send([entry]);
            }
        });

        Assert.Equal(string.Join("\n", oneByOne), string.Join("\n", together));
        Assert.Equal(6, together.Count);
        Assert.Empty(await nursery.Get<RebuildStates>().HandleAsync(nursery.Administrator));
    }

    /// <summary>A morning's work on six batches; gives their states and tasks. What was withdrawn keeps the words of its day: left out.</summary>
    private static async Task<List<string>> WorkAsync(TestNursery nursery, Func<EntryRequest[], Func<EntryRequest[], Task>, Task> sendAsync)
    {
        var contents = new List<EntryContent>();
        var batches = new List<Guid>();
        for (var index = 0; index < 6; index++)
        {
            var batch = await nursery.PlanAsync(nursery.Pepper, trays: 1, seeds: 2);
            await nursery.ReserveAsync(batch, "G1", null, nursery.Today, nursery.Today.PlusDays(9));
            await nursery.ReserveAsync(batch, "W1", null, nursery.Today.PlusDays(9), nursery.Today.PlusDays(12));
            batches.Add(batch.Id);
            contents.Add(new TaskDone((await nursery.TaskAsync(batch.Id, TaskKind.Sow)).Id.Value));
        }

        await sendAsync([.. contents.Select(content => nursery.Entry(content))], SendAllAsync);
        contents.Clear();
        foreach (var (batch, index) in batches.Select((batch, index) => (batch, index)))
        {
            contents.Add(new TaskDone((await nursery.TaskAsync(batch, TaskKind.FirstWatering)).Id.Value));
            contents.Add(new PlantsCounted(batch, CountWhat.CellsUp, 60 + index, null, null, false));
            contents.Add(new TaskNotYet((await nursery.TaskAsync(batch, TaskKind.EmergenceCheck)).Id.Value, "half are up"));
            contents.Add(new TaskDone((await nursery.TaskAsync(batch, TaskKind.MoveOffHeat)).Id.Value));
            contents.Add(new PlantsLost(batch, index + 1, "slugs"));
        }

        await sendAsync([.. contents.Select(content => nursery.Entry(content))], SendAllAsync);
        var tasks = (await nursery.TasksAsync()).ToLookup(task => task.SubjectId);
        var told = new List<string>();
        foreach (var batch in batches)
        {
            var rows = tasks[batch].Where(task => task.State != TaskState.Withdrawn).Select(task => $"{task.Kind} {task.Occurrence} {task.State} {task.DueOn} {task.DoneOn} {task.Why}");
            told.Add($"{await nursery.StateAsync(batch)} {string.Join("; ", rows)}");
        }

        return told;

        async Task SendAllAsync(EntryRequest[] entries) => Assert.All(
            await nursery.Get<RecordEntries>().HandleAsync(entries, nursery.Staff), result => Assert.Equal(EntryOutcome.Applied, result.Outcome));
    }

    private static Task<IReadOnlyList<EntryResult>> SendAsync(TestNursery nursery, params EntryContent[] contents) =>
        nursery.Get<RecordEntries>().HandleAsync([.. contents.Select(content => nursery.Entry(content))], nursery.Staff);
}
