using Microsoft.EntityFrameworkCore;
using NodaTime;
using NodaTime.Text;
using Nursery.Application.Rounds;
using Nursery.Domain.Ledger;
using Nursery.Domain.People;
using Xunit;
using Xunit.Abstractions;

namespace Nursery.Application.Tests.Scenario;

/// <summary>The demo is relative to the load day, and the calendar has its corners.</summary>
public sealed class LoadScenarioDaysTests(ITestOutputHelper output)
{
    [Theory]
    [InlineData("2027-02-28T15:00:00Z", "2027-02-28")]
    [InlineData("2027-03-01T15:00:00Z", "2027-03-01")]
    [InlineData("2028-02-29T15:00:00Z", "2028-02-29")]

    // Chicago's clocks go forward on the second Sunday of March and back on the first of November (IANA time zone database).
    [InlineData("2027-03-14T06:30:00Z", "2027-03-14")]
    [InlineData("2026-11-01T05:30:00Z", "2026-11-01")]

    // ISO 8601 week 53 of 2026, in the evening: Chicago's day, not UTC's.
    [InlineData("2027-01-01T03:00:00Z", "2026-12-31")]
    public async Task HandleAsync_DayOfTheCalendar_LoadsTheSameNursery(string now, string day)
    {
        var loadDay = LocalDatePattern.Iso.Parse(day).Value;
        await using var nursery = await DemoNursery.LoadAsync(now);
        output.WriteLine($"loaded in {nursery.LoadTime.TotalSeconds:0.0} s");
        await using var database = await nursery.OpenAsync();

        Assert.Equal(DemoFiles.Count("batches.csv"), await database.Batches.CountAsync());
        Assert.Equal(DemoFiles.SownBatches().Count, await database.Batches.CountAsync(batch => batch.State.SownOn != null));
        Assert.Equal(loadDay.PlusDays(DemoFiles.SownBatches().Min(batch => DemoFiles.Whole(batch, "sow_on"))), await database.Batches.MinAsync(batch => batch.State.SownOn));
        Assert.Equal(0, await BeyondBenchAsync(database));
        var tasks = await nursery.Get<ListTasks>().HandleAsync(null, await nursery.ActorAsync(Role.Staff));
        Assert.InRange(tasks.Count, 15, 60);
        Assert.InRange(tasks.Count(task => task.DueOn < loadDay), 1, 5);
        Assert.Empty(await nursery.Get<RebuildStates>().HandleAsync(await nursery.ActorAsync(Role.Administrator)));
        await AssertSitesDaysAsync(database, loadDay);
    }

    private static Task<int> BeyondBenchAsync(Data.NurseryDbContext database) => (
        from reservation in database.Reservations
        join bench in database.Benches on reservation.BenchId equals bench.Id
        where reservation.Capacity != bench.Capacity
        select reservation).CountAsync();

    /// <summary>Every entry counts for the day on the site's clock at which it happened, in working hours.</summary>
    private static async Task AssertSitesDaysAsync(Data.NurseryDbContext database, LocalDate loadDay)
    {
        var chicago = DateTimeZoneProviders.Tzdb["America/Chicago"];
        var work = await database.Ledger.AsNoTracking()
            .Where(entry => entry.Kind == LedgerKind.Done || entry.Kind == LedgerKind.Count).ToListAsync();
        Assert.NotEmpty(work);
        foreach (var entry in work)
        {
            var local = entry.HappenedAt.InZone(chicago);
            Assert.Equal(local.Date, entry.Day);
            Assert.InRange(local.Hour, 7, 16);
            Assert.True(entry.Day < loadDay, $"{entry.Kind} on {entry.Day}");
        }
    }
}
