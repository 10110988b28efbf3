using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Logging.Abstractions;
using Nursery.Application.Batches;
using Nursery.Application.Reservations;
using Nursery.Application.Runs;
using Nursery.Data;
using Nursery.Domain.Ledger;
using Nursery.Domain.Refusals;
using Nursery.Domain.Runs;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Application.Tests.Reservations;

public sealed class PlacingRunTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    /// <summary>The run makes one context to take the run and one a report; the third is the report after the first ten.</summary>
    private const int SecondReport = 3;

    [Fact]
    public async Task Run_ManyBatches_GivesThePlacesOfOneGoAndKeepsTheReport()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var twin = await TestNursery.OpenAsync(database);
        foreach (var each in new[] { nursery, twin })
        {
            await PlanManyAsync(each, 25);
            await each.PlanAsync(each.Pepper, trays: 30, inDays: 1);
        }

        var run = await nursery.Get<StartPlacing>().HandleAsync(nursery.HeadGrower);
        Assert.Equal((RunState.Queued, 0, 26), (run.State, run.Done, run.Total));
        await nursery.Get<RunPlacing>().HandleAsync(run.Id);
        var oneGo = await twin.Get<PlaceByFirstFit>().HandleAsync(twin.HeadGrower);

        var seen = await nursery.Get<ShowPlacing>().HandleAsync(null, nursery.Manager);
        Assert.Equal((RunState.Done, 26, 26, nursery.HeadGrower.Name), (seen!.State, seen.Done, seen.Total, seen.StartedBy));
        Assert.Equal(oneGo.Placed, seen.Result.Placed.Count);
        Assert.Equal(oneGo.NotPlaced.Select(row => row.Why), seen.Result.NotPlaced.Select(row => row.Why));
        Assert.Contains(seen.Result.NotPlaced, row => row.Why.Contains("30 spaces in a row", StringComparison.Ordinal));
        var (held, heldByTwin) = (await HeldAsync(nursery), await HeldAsync(twin));
        Assert.NotEmpty(held);
        Assert.Equal(heldByTwin, held);
        Assert.Equal(held, seen.Result.Placed.SelectMany(row => new[] { $"{row.HeatBench} {row.HeatSpaces} {row.SowOn}", $"{row.Bench} {row.BenchSpaces} {row.MoveOffOn}" })
            .Order(StringComparer.Ordinal));
        Assert.Equal(held.Count, await CountAsync(nursery, LedgerKind.Reserved, nursery.HeadGrower.Name));
    }

    [Fact]
    public async Task Start_WhileOneRuns_IsRefusedWithWhoAndHowFar()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await PlanManyAsync(nursery, 2);
        var first = await nursery.Get<StartPlacing>().HandleAsync(nursery.HeadGrower);

        var refusal = await Assert.ThrowsAsync<RunUnderWay>(() => nursery.Get<StartPlacing>().HandleAsync(nursery.Administrator));

        Assert.Contains($"{nursery.HeadGrower.Name} started this already", refusal.Message, StringComparison.Ordinal);
        Assert.Contains("0 of 2", refusal.Message, StringComparison.Ordinal);
        Assert.Equal(first.Id, refusal.Facts["id"]);
    }

    [Fact]
    public async Task Start_ManyAtTheSameMoment_OneBegins()
    {
        await using var nursery = await TestNursery.OpenAsync(database);

        var outcomes = await Task.WhenAll(Enumerable.Range(0, 8).Select(_ =>
            Record.ExceptionAsync(() => nursery.Get<StartPlacing>().HandleAsync(nursery.HeadGrower))));

        Assert.Single(outcomes, outcome => outcome is null);
        Assert.Equal(7, outcomes.Count(outcome => outcome is RunUnderWay));
    }

    [Fact]
    public async Task Stop_MidWay_KeepsWhatWasPlaced()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await PlanManyAsync(nursery, 25);
        var run = await nursery.Get<StartPlacing>().HandleAsync(nursery.HeadGrower);

        await Run(nursery, async made =>
        {
            if (made == SecondReport)
            {
                await nursery.Get<StopRun>().HandleAsync(run.Id, RunKind.FirstFit, nursery.Administrator);
            }
        }).HandleAsync(run.Id);

        var seen = await nursery.Get<ShowPlacing>().HandleAsync(run.Id, nursery.HeadGrower);
        Assert.Equal((RunState.Stopped, 10, true), (seen!.State, seen.Done, seen.StopRequested));
        Assert.Equal(10, seen.Result.Placed.Count + seen.Result.NotPlaced.Count);
        Assert.Equal(2 * seen.Result.Placed.Count, (await HeldAsync(nursery)).Count);
        await nursery.Get<StartPlacing>().HandleAsync(nursery.HeadGrower);
    }

    [Fact]
    public async Task Stop_BeforeItBegan_NothingIsPlaced()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await PlanManyAsync(nursery, 2);
        var run = await nursery.Get<StartPlacing>().HandleAsync(nursery.HeadGrower);

        await nursery.Get<StopRun>().HandleAsync(run.Id, RunKind.FirstFit, nursery.HeadGrower);
        await nursery.Get<RunPlacing>().HandleAsync(run.Id);

        Assert.Equal(RunState.Stopped, (await nursery.Get<ShowPlacing>().HandleAsync(run.Id, nursery.HeadGrower))!.State);
        Assert.Empty(await HeldAsync(nursery));
    }

    [Fact]
    public async Task ServerDies_MidWay_IsInterruptedAndCanBeStartedAgain()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await PlanManyAsync(nursery, 25);
        var run = await nursery.Get<StartPlacing>().HandleAsync(nursery.HeadGrower);

        // From here on it reaches no database any more, as a process that is gone.
        await Assert.ThrowsAsync<TimeoutException>(() =>
            Run(nursery, made => made >= SecondReport ? throw new TimeoutException("gone") : Task.CompletedTask).HandleAsync(run.Id));
        Assert.Equal(RunState.Running, (await nursery.Get<ShowPlacing>().HandleAsync(run.Id, nursery.HeadGrower))!.State);
        nursery.Clock.Advance(TimeSpan.FromMinutes(3));
        await nursery.Get<BuryDeadRuns>().HandleAsync();

        var seen = await nursery.Get<ShowPlacing>().HandleAsync(run.Id, nursery.HeadGrower);
        Assert.Equal(RunState.Interrupted, seen!.State);
        var kept = await HeldAsync(nursery);
        Assert.NotEmpty(kept);
        var again = await nursery.Get<StartPlacing>().HandleAsync(nursery.HeadGrower);
        await nursery.Get<RunPlacing>().HandleAsync(run.Id);
        await nursery.Get<RunPlacing>().HandleAsync(again.Id);
        Assert.Equal(RunState.Done, (await nursery.Get<ShowPlacing>().HandleAsync(again.Id, nursery.HeadGrower))!.State);
        Assert.Superset(kept.ToHashSet(), (await HeldAsync(nursery)).ToHashSet());
    }

    [Fact]
    public async Task Show_RunOfAnotherSite_IsNotFound()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var other = await TestNursery.OpenAsync(database);
        var run = await nursery.Get<StartPlacing>().HandleAsync(nursery.HeadGrower);

        await Assert.ThrowsAsync<NotFound>(() => other.Get<ShowPlacing>().HandleAsync(run.Id, other.HeadGrower));
        await Assert.ThrowsAsync<NotFound>(() => other.Get<StopRun>().HandleAsync(run.Id, RunKind.FirstFit, other.HeadGrower));
        Assert.Null(await other.Get<ShowPlacing>().HandleAsync(null, other.HeadGrower));
    }

    private static RunPlacing Run(TestNursery nursery, Func<int, Task> before) => new(
        new CountedContexts(nursery.Get<IDbContextFactory<NurseryDbContext>>(), before),
        nursery.Get<PlaceByFirstFit>(), NullLogger<RunPlacing>.Instance, nursery.Clock);

    private static async Task<List<PlannedBatch>> PlanManyAsync(TestNursery nursery, int many)
    {
        var planned = new List<PlannedBatch>();
        for (var number = 0; number < many; number++)
        {
            planned.Add(await nursery.PlanAsync(number % 2 == 0 ? nursery.Pepper : nursery.Lettuce, trays: 1 + (number % 3), inDays: 1 + (3 * number)));
        }

        return planned;
    }

    /// <summary>Bench, spaces and first day of every reservation.</summary>
    private static async Task<List<string>> HeldAsync(TestNursery nursery)
    {
        await using var database = await nursery.DatabaseAsync();
        var rows = await (
            from reservation in database.Reservations
            join bench in database.Benches on reservation.BenchId equals bench.Id
            where reservation.SiteId == nursery.At.Site.Id
            select new { bench.Code, reservation.Spaces, reservation.Days }).ToListAsync();
        return [.. rows.Select(row => $"{row.Code} {row.Spaces} {row.Days.Start}").Order(StringComparer.Ordinal)];
    }

    private static async Task<int> CountAsync(TestNursery nursery, LedgerKind kind, string who)
    {
        await using var database = await nursery.DatabaseAsync();
        return await database.Ledger.CountAsync(entry => entry.SiteId == nursery.At.Site.Id && entry.Kind == kind && entry.WhoName == who);
    }
}
