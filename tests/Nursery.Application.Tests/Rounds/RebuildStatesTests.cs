using Microsoft.EntityFrameworkCore;
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

public sealed class RebuildStatesTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    public async Task HandleAsync_AfterARandomHistory_FindsNoDifference(int seed)
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await LiveAsync(nursery, new Random(seed));

        // The hour's job: days passed since the last entry about a batch, and with them what is raised ahead.
        await nursery.Get<RaiseTasks>().HandleAsync();
        var before = await StoredAsync(nursery);

        Assert.Empty(await nursery.Get<RebuildStates>().HandleAsync(nursery.Administrator));

        Assert.Equal(before, await StoredAsync(nursery));
    }

    [Fact]
    public async Task HandleAsync_StateColumnTampered_FindsItAndMendsItWithoutMovingSeed()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper);
        await nursery.PlanAsync(nursery.Lettuce);
        await nursery.SowAsync(batch);
        var right = await nursery.StateAsync(batch.Id);
        await using (var open = await nursery.DatabaseAsync())
        {
            await open.Database.ExecuteSqlAsync(
                $"UPDATE batches SET state_stage = 'Ready', state_seeds_sown = 7, state_lost = 3 WHERE id = {batch.Id}");
        }

        var difference = Assert.Single(await nursery.Get<RebuildStates>().HandleAsync(nursery.Administrator));

        Assert.Equal((batch.Code, BatchStage.Ready, 7), (difference.BatchCode, difference.Stored.Stage, difference.Stored.SeedsSown));
        Assert.Equal(right, difference.Folded);
        Assert.Equal(right, await nursery.StateAsync(batch.Id));
        Assert.Equal(100_000 - 144, await nursery.StockAsync(nursery.PepperLot));
        Assert.Empty(await nursery.Get<RebuildStates>().HandleAsync(nursery.Administrator));
    }

    /// <summary>Everything people do in a nursery, at random, out of order and taken back again.</summary>
    private static async Task LiveAsync(TestNursery nursery, Random random)
    {
        var batches = new List<PlannedBatch>();
        foreach (var variety in new[] { nursery.Pepper, nursery.Lettuce, nursery.Pepper })
        {
            var batch = await nursery.PlanAsync(variety, seeds: 2);
            batches.Add(batch);
            await nursery.ReserveAsync(batch, "G1", null, nursery.Today, nursery.Today.PlusDays(9));
            await nursery.ReserveAsync(batch, "C1", null, nursery.Today.PlusDays(9), nursery.Today.PlusDays(60));
        }

        var sent = new List<Guid>();
        for (var step = 0; step < 60; step++)
        {
            nursery.Clock.Advance(TimeSpan.FromHours(random.Next(1, 12)));
            var batch = batches[random.Next(batches.Count)];
            var tasks = (await nursery.TasksAsync()).Where(task => task.State != TaskState.Withdrawn).ToList();
            EntryContent content = random.Next(10) switch
            {
                < 4 => new TaskDone(tasks[random.Next(tasks.Count)].Id.Value),
                4 => new TaskNotYet(tasks[random.Next(tasks.Count)].Id.Value, "not today"),
                5 => new PlantsCounted(batch.Id, (CountWhat)random.Next(3), random.Next(140), null, null, false),
                6 => new PlantsLost(batch.Id, random.Next(1, 9), "slugs"),
                7 => new TraysMoved(batch.TraySetCode, new TrayChoice(null, [random.Next(1, 3)]), random.Next(2) == 0 ? "G1" : "D1", null),
                8 => new EntryUndone(Guid.CreateVersion7()),
                _ => new EntryUndone(sent.Count == 0 ? Guid.CreateVersion7() : sent[random.Next(sent.Count)]),
            };
            var at = nursery.Clock.GetUtcNow().AddHours(-random.Next(0, 40));
            var result = await nursery.SendAsync(nursery.Entry(content, at: at));
            if (result.Outcome == EntryOutcome.Applied && content is not EntryUndone)
            {
                sent.Add(result.Id);
            }
        }

        Assert.True(sent.Count > 15, $"only {sent.Count} entries were applied");
    }

    private static async Task<List<string>> StoredAsync(TestNursery nursery)
    {
        await using var open = await nursery.DatabaseAsync();
        var states = await open.Batches.AsNoTracking().Where(batch => batch.SiteId == nursery.At.Site.Id)
            .OrderBy(batch => batch.Id).ToListAsync();
        return
        [
            .. states.Select(batch => batch.State.ToString()),
            .. (await nursery.TasksAsync()).Select(task => $"{task.Id} {task.State} {task.DueOn} {task.DoneBy} {task.Why}"),
            .. (await nursery.StandingAsync()).Select(row => row.ToString()),
            $"{await nursery.StockAsync(nursery.PepperLot)} {await nursery.StockAsync(nursery.LettuceLot)}",
        ];
    }
}
