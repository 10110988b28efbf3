using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Agronomy;
using Nursery.Application.Batches;
using Nursery.Application.Rounds;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain.People;
using Nursery.Domain.Tasks;

namespace Nursery.Application.Start;

/// <summary>Seed sown in the last four weeks and counted so far; fraction 0–1.</summary>
public sealed record RecentGermination(LocalDate From, int Batches, long Seeds, decimal Fraction);

/// <summary>What needs someone now. Plan lists are empty for whoever may not plan.</summary>
/// <param name="Today">The site's day.</param>
/// <param name="Open">Tasks due today or earlier and not done.</param>
/// <param name="Late">Those of an earlier day, the oldest first.</param>
/// <param name="Unplaced">Planned batches without a place.</param>
/// <param name="LongOnHeat">Trays on heat for longer than planned, the longest first.</param>
/// <param name="Unplanned">Order lines that should be sown within 14 days and have no batch for all their plants.</param>
/// <param name="Recent">Null when nothing sown in the last four weeks is counted.</param>
/// <param name="First">The way to the first sowing, for whoever may plan; null once something was sown.</param>
public sealed record StartView(
    LocalDate Today,
    int Open,
    IReadOnlyList<TaskItem> Late,
    IReadOnlyList<BatchItem> Unplaced,
    IReadOnlyList<LongOnHeat> LongOnHeat,
    IReadOnlyList<UnplannedOrderLine> Unplanned,
    RecentGermination? Recent,
    FirstSteps? First)
{
    /// <summary>The round, house by house in walking order.</summary>
    public IReadOnlyList<HouseProgress> Round { get; init; } = [];

    /// <summary>Zones that read what a crop on them does not bear.</summary>
    public IReadOnlyList<ZoneOutOfBand> ZonesOutOfBand { get; init; } = [];

    /// <summary>Zones whose probe is read no more.</summary>
    public IReadOnlyList<ZoneUnread> ZonesUnread { get; init; } = [];

    /// <summary>Batches of which fewer are up than should be.</summary>
    public IReadOnlyList<CountAstray> CountsAstray { get; init; } = [];

    /// <summary>Trays past the last day the plan has for them.</summary>
    public IReadOnlyList<Overstaying> Overstays { get; init; } = [];
}

/// <summary>How far the day's round is in a house; null is what has no place.</summary>
public sealed record HouseProgress(string? House, int Done, int Total, decimal MinutesLeft);

public sealed class ShowStart(
    IDbContextFactory<NurseryDbContext> databases, ListTasks listTasks, ListUnplaced listUnplaced, TimeProvider time)
{
    /// <summary>How far ahead order lines without a batch are told of, days.</summary>
    private const int HorizonDays = 14;
    private const int RecentDays = 28;

    public async Task<StartView> HandleAsync(Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Read);
        await using var database = await databases.CreateDbContextAsync(cancellation);
        var site = await database.SiteOfAsync(actor, cancellation);
        var today = site.Today(time);
        var tasks = (await listTasks.HandleAsync(today, actor, cancellation)).DistinctBy(task => task.Id).ToList();
        var open = tasks.Where(task => task.State == TaskState.Open).ToList();
        var houses = await database.Houses.Where(house => house.SiteId == actor.SiteId)
            .ToDictionaryAsync(house => house.Code, house => house.Name, cancellation);
        var plans = actor.Rights.Contains(Right.Plan);
        return new StartView(
            today,
            open.Count,
            [.. open.Where(task => task.DueOn < today).OrderBy(task => task.DueOn)],
            plans ? await listUnplaced.HandleAsync(actor, cancellation) : [],
            plans ? await HeatOverrun.LoadAsync(database, actor, today, cancellation) : [],
            plans ? await UnplannedLines.LoadAsync(database, site, today.PlusDays(HorizonDays), cancellation) : [],
            await RecentAsync(database, actor, today.PlusDays(-RecentDays), cancellation),
            plans ? await FirstStepsQuery.LoadAsync(database, actor, cancellation) : null)
        {
            Round = [.. tasks.GroupBy(task => task.House).Select(house => new HouseProgress(
                house.Key is { } code ? houses[code] : null,
                house.Count(task => task.State == TaskState.Done),
                house.Count(),
                house.Where(task => task.State == TaskState.Open).Sum(task => task.Minutes)))],
            ZonesOutOfBand = plans
                ? await Start.ZonesOutOfBand.LoadAsync(database, actor.SiteId, Instant.FromDateTimeOffset(time.GetUtcNow()), cancellation)
                : [],
            ZonesUnread = plans
                ? await Start.ZonesUnread.LoadAsync(database, actor.SiteId, Instant.FromDateTimeOffset(time.GetUtcNow()), cancellation)
                : [],
            CountsAstray = plans ? await Start.CountsAstray.LoadAsync(database, site, actor, today, cancellation) : [],
            Overstays = plans ? await Start.Overstays.LoadAsync(database, actor, today, cancellation) : [],
        };
    }

    private static async Task<RecentGermination?> RecentAsync(
        NurseryDbContext database, Actor actor, LocalDate from, CancellationToken cancellation)
    {
        var batches = await database.Batches.AsNoTracking()
            .Where(batch => batch.SiteId == actor.SiteId && batch.State.CountedSeeds > 0 && batch.State.SownOn >= from)
            .ToListAsync(cancellation);
        if (batches.Count == 0)
        {
            return null;
        }

        var rate = EmergenceRate.Of(
            [.. batches.Select(batch => (batch.State.CountedSeeds!.Value, batch.State.CountedUp!.Value))]);
        return new RecentGermination(from, rate.Batches, rate.Seeds, rate.Fraction);
    }
}
