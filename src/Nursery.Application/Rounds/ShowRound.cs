using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain.Benches;
using Nursery.Domain.Ledger;
using Nursery.Domain.People;
using Nursery.Domain.Sites;

namespace Nursery.Application.Rounds;

/// <summary>A bench on the round: its heat, and how its surface was last seen today.</summary>
public sealed record RoundBench(
    string House, string HouseName, string Code, string Name, BenchKind Kind, IReadOnlyList<decimal> SetpointsC, SeenSurface? Surface);

public sealed record SeenSurface(Guid EntryId, SurfaceState State, string Who);

/// <summary>Someone else at work today: where their last report was from, null when of no bench, when, and how many they made.</summary>
public sealed record RoundWorker(string Name, string? House, string? BenchCode, Instant At, int Reports);

/// <summary>The day's walk through the houses: benches and tasks in walking order.</summary>
public sealed record Round(
    string SiteName,
    bool IsDemo,
    Units Units,
    ZonedDateTime At,
    IReadOnlyList<RoundBench> Benches,
    IReadOnlyList<TaskItem> Tasks,
    IReadOnlyList<RoundWorker> Others)
{
    public LocalDate Day => At.Date;
}

public sealed class ShowRound(ListTasks tasks, IDbContextFactory<NurseryDbContext> databases, TimeProvider time)
{
    public async Task<Round> HandleAsync(Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Read);
        await using var database = await databases.CreateDbContextAsync(cancellation);
        var site = await database.SiteOfAsync(actor, cancellation);
        var at = Instant.FromDateTimeOffset(time.GetUtcNow()).InZone(site.Zone);
        var benches = await (
            from bench in database.Benches
            join house in database.Houses on bench.HouseId equals house.Id
            where bench.SiteId == actor.SiteId && bench.RetiredOn == null
            orderby house.RoundOrder, bench.RoundOrder, bench.Id
            select new { House = house.Code, HouseName = house.Name, bench.Id, bench.Code, bench.Name, bench.Kind })
            .ToListAsync(cancellation);
        var zones = (await database.HeatZones.Where(zone => zone.SiteId == actor.SiteId)
            .Select(zone => new { zone.BenchId, zone.SetpointC }).ToListAsync(cancellation))
            .ToLookup(zone => zone.BenchId, zone => zone.SetpointC);
        var surfaces = await database.Ledger.AsNoTracking()
            .Where(entry => entry.SiteId == actor.SiteId
                && entry.Day == at.Date
                && entry.Kind == LedgerKind.Surface
                && !database.Ledger.Any(undo => undo.UndoOf == entry.Id && undo.SiteId == entry.SiteId))
            .ToListAsync(cancellation);
        var seen = LedgerOrder.Effective(surfaces).ToLookup(entry => entry.BenchId);
        var items = await tasks.HandleAsync(at.Date, actor, cancellation);
        var codes = benches.ToDictionary(bench => bench.Id, bench => (bench.House, bench.Code));
        return new Round(
            site.Name,
            site.IsDemo,
            site.Units,
            at,
            [
                .. benches.Select(bench => new RoundBench(
                    bench.House, bench.HouseName, bench.Code, bench.Name, bench.Kind,
                    [.. zones[bench.Id].Order()],
                    seen[bench.Id].LastOrDefault() is { Value: Surface surface } entry
                        ? new SeenSurface(entry.Id.Value, surface.State, entry.WhoName)
                        : null)),
            ],
            items,
            await RoundWorkers.LoadAsync(
                database, actor, at.Date, items, bench => codes.TryGetValue(bench, out var code) ? code : null, cancellation));
    }
}
