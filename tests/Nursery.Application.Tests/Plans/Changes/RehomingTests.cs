using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Plans.Changes;
using Nursery.Domain.Refusals;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Xunit;
using PlannedBatch = Nursery.Application.Batches.PlannedBatch;

namespace Nursery.Application.Tests.Plans.Changes;

/// <summary>Full benches and what fails drawn at random: whatever happens, no tray is lost. That nothing is promised twice the database
/// itself sees to.</summary>
public sealed class RehomingTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    private const int Horizon = 60;
    private static readonly string[] Benches = ["G1", "W1", "W2", "D1"];

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    [InlineData(5)]
    [InlineData(6)]
    public async Task Accept_SomethingFails_EveryTrayHasAPlaceOnEveryDayItHadOne(int seed)
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var random = new Random(seed);
        await nursery.WarmBenchAsync("W2", 25);
        for (var number = 0; number < 12; number++)
        {
            await GrowAsync(nursery, random, number);
        }

        nursery.Clock.Advance(TimeSpan.FromDays(random.Next(0, 4)));
        var from = nursery.Today.PlusDays(random.Next(0, 6));
        var out1 = Benches[random.Next(Benches.Length)];
        var out2 = Benches[random.Next(Benches.Length)];
        var before = await TraysAsync(nursery);

        PlanEvent[] changes =
        [
            new BenchOut(out1, from, from.PlusDays(random.Next(2, 25))),
            .. out2 == out1 ? [] : new PlanEvent[] { new BenchOut(out2, from.PlusDays(2), from.PlusDays(random.Next(3, 30))) },
        ];
        var proposal = await nursery.KeepAsync(changes);
        await nursery.AcceptAsync(proposal);

        Assert.Equal(before, await TraysAsync(nursery));
        var stuck = proposal.Run.Homeless.Select(sentence => sentence.Split(':')[0]).ToHashSet();
        foreach (var outage in changes.Cast<BenchOut>())
        {
            Assert.All(
                (await OnAsync(nursery, outage.Bench)).Where(place => place.From < outage.To && place.To > outage.From),
                place => Assert.Contains(place.Batch, stuck));
        }

        // What went elsewhere stays there: nothing moves again.
        Assert.DoesNotContain((await nursery.KeepAsync()).Run.Running, change => !stuck.Contains(change.Code));
    }

    private static async Task GrowAsync(TestNursery nursery, Random random, int number)
    {
        var batch = await nursery.PlanAsync(nursery.Pepper, random.Next(1, 9));
        var first = random.Next(2, 8);
        try
        {
            if (number % 3 == 0)
            {
                await Reserve(batch, "G1", 0, first);
            }

            await Reserve(batch, number % 2 == 0 ? "W1" : "W2", number % 3 == 0 ? first : 0, first + random.Next(5, 20));
            await Reserve(batch, "D1", first + 20, first + 26);
        }
        catch (Refusal full) when (full is BenchIsFull or TooCold)
        {
            // Then it has no place for some of its days.
        }

        await nursery.SowAsync(batch);

        Task Reserve(PlannedBatch trays, string bench, int from, int to) =>
            nursery.ReserveAsync(trays, bench, null, nursery.Today.PlusDays(from), nursery.Today.PlusDays(to));
    }

    /// <summary>By tray set: how many of its trays have a place, day by day from today on.</summary>
    private static async Task<SortedDictionary<string, string>> TraysAsync(TestNursery nursery)
    {
        await using var rows = await nursery.DatabaseAsync();
        var places = await (
            from place in rows.Reservations
            join set in rows.TraySets on place.TraySetId equals set.Id
            where place.SiteId == nursery.At.Site.Id
            select new { place.Days, place.Trays, set.Code }).ToListAsync();
        return new SortedDictionary<string, string>(places.GroupBy(place => place.Code).ToDictionary(set => set.Key, set => string.Join(' ', Enumerable.Range(0, Horizon).Select(
            day => set.Where(place => place.Days.Contains(nursery.Today.PlusDays(day)))
                .SelectMany(place => Enumerable.Range(place.Trays.First, place.Trays.Count)).Distinct().Count()))));
    }

    private static async Task<List<(string Batch, LocalDate From, LocalDate To)>> OnAsync(TestNursery nursery, string code)
    {
        await using var rows = await nursery.DatabaseAsync();
        return [.. (await (
            from place in rows.Reservations
            join bench in rows.Benches on place.BenchId equals bench.Id
            join share in rows.TrayShares on place.TraySetId equals share.TraySetId
            join batch in rows.Batches on share.BatchId equals batch.Id
            where place.SiteId == nursery.At.Site.Id && bench.Code == code && place.Days.End >= nursery.Today
            select new { batch.Code, place.Days }).ToListAsync()).Select(row => (row.Code, row.Days.Start, row.Days.End.PlusDays(1)))];
    }
}
