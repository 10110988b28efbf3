using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Batches;
using Nursery.Application.Reservations;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.Benches;
using Nursery.Domain.HeatZones;
using Nursery.Domain.People;
using Nursery.Domain.TraySets;

namespace Nursery.Application.Benches;

/// <summary>Trays lying on a bench on a day. <paramref name="Standing"/>: they are there in fact, not only by plan.
/// Spaces are null when nobody said where on the bench they stand; <paramref name="ReservationId"/> is null for what only stands
/// there. <paramref name="FirstTray"/>: the number of the first of these trays within their set. <paramref name="Part"/>: the rows of
/// cells that are the batch's own in trays it shares, the first of them <paramref name="FirstRow"/>.</summary>
public sealed record BenchTrays(
    string TraySetCode,
    Guid BatchId,
    string BatchCode,
    string CropName,
    string VarietyName,
    string? LotCode,
    BatchStage Stage,
    int Trays,
    int CellsPerTray,
    int SeedsPerCell,
    int? FirstSpace,
    int? Spaces,
    bool Reserved,
    bool Standing,
    LocalDate SowOn,
    LocalDate? SownOn,
    LocalDate ReadyOn,
    LocalDate From,
    LocalDate? To,
    Guid? ReservationId = null,
    int FirstTray = 1,
    string? Part = null,
    int? FirstRow = null,
    int TraysInSet = 1);

/// <param name="Code">Of the zone.</param>
/// <param name="FirstSpace">Where it begins.</param>
/// <param name="Spaces">How far it goes.</param>
/// <param name="SetpointC">On the day shown.</param>
/// <param name="ReadsC">What its thermometer said last; null before the first reading.</param>
public sealed record HouseZone(string Code, int FirstSpace, int Spaces, decimal SetpointC, decimal? ReadsC);

/// <summary>Spaces that cannot be used on the day shown, and why, in a sentence.</summary>
public sealed record HouseOutage(int FirstSpace, int Spaces, string Sentence);

/// <summary>A bench with its place in the house, all in cm; spaces run down the rows, then along the bench.</summary>
public sealed record HouseBench(
    Guid Id,
    string Code,
    string Name,
    BenchKind Kind,
    Band? Band,
    int XCm,
    int YCm,
    int LengthCm,
    int WidthCm,
    int Capacity,
    int Rows,
    int Free,
    IReadOnlyList<HouseZone> Zones,
    IReadOnlyList<BenchTrays> Trays)
{
    /// <summary>What of it is out of use; such spaces are not free.</summary>
    public IReadOnlyList<HouseOutage> OutOfUse { get; init; } = [];
}

public sealed record HousePlan(
    Guid Id, string Code, string Name, int LengthCm, int WidthCm, IReadOnlyList<HouseBench> Benches);

/// <summary>Spaces reserved on a day of all there are in a house.</summary>
public sealed record HouseLoad(LocalDate Day, int Held, int Capacity);

/// <summary>The site's houses on a day, with the load of one of them over the season.</summary>
public sealed record HousesOnDay(LocalDate Day, LocalDate Today, IReadOnlyList<HousePlan> Houses);

/// <summary>What lies where on a day: the plan, and today also the fact.</summary>
public sealed class ShowHouses(IDbContextFactory<NurseryDbContext> databases, TimeProvider time)
{
    public async Task<HousesOnDay> HandleAsync(LocalDate? on, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Read);
        await using var database = await databases.CreateDbContextAsync(cancellation);
        var site = await database.SiteOfAsync(actor, cancellation);
        var today = site.Today(time);
        var day = on ?? today;
        var houses = await database.Houses.AsNoTracking()
            .Where(house => house.SiteId == actor.SiteId && house.RetiredOn == null)
            .OrderBy(house => house.RoundOrder).ToListAsync(cancellation);
        var benches = (await database.Benches.AsNoTracking()
            .Where(bench => bench.SiteId == actor.SiteId && bench.RetiredOn == null)
            .OrderBy(bench => bench.RoundOrder).ToListAsync(cancellation)).ToLookup(bench => bench.HouseId);
        var zones = (await database.HeatZones.AsNoTracking()
            .Where(zone => zone.SiteId == actor.SiteId).ToListAsync(cancellation)).ToLookup(zone => zone.BenchId);
        var spans = await database.ZoneSetpoints.AsNoTracking().Where(span => span.SiteId == actor.SiteId).ToListAsync(cancellation);
        var outages = (await HeldSpaces.OutOfUseAsync(
            database, [.. benches.SelectMany(house => house).Select(bench => bench.Id)], day, day.PlusDays(1), cancellation)).ToLookup(held => held.BenchId);
        var trays = (await TraysAsync(database, actor, day, today, cancellation)).ToLookup(row => row.Bench, row => row.Trays);
        return new HousesOnDay(
            day,
            today,
            [
                .. houses.Select(house => new HousePlan(
                    house.Id.Value, house.Code, house.Name, house.LengthCm, house.WidthCm,
                    [.. benches[house.Id].Select(bench => BenchOf(bench, zones[bench.Id], spans, day, [.. trays[bench.Id]], [.. outages[bench.Id]]))])),
            ]);
    }

    /// <summary>Spaces held in a house on every day of a span.</summary>
    public async Task<IReadOnlyList<HouseLoad>> LoadAsync(
        string houseCode, LocalDate from, int days, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Read);
        await using var database = await databases.CreateDbContextAsync(cancellation);
        var benches = await (
            from bench in database.Benches
            join house in database.Houses on bench.HouseId equals house.Id
            where bench.SiteId == actor.SiteId && house.Code == houseCode && bench.RetiredOn == null
            select new { bench.Id, bench.Capacity }).ToListAsync(cancellation);
        var ids = benches.ConvertAll(bench => bench.Id);
        var last = from.PlusDays(days - 1);
        var held = await database.Reservations
            .Where(row => ids.Contains(row.BenchId) && row.Days.Start <= last && row.Days.End >= from)
            .Select(row => new { row.Spaces, row.Days }).ToListAsync(cancellation);

        // What comes and goes each day, added up: a day asks nobody who holds it.
        var change = new int[days + 1];
        foreach (var row in held)
        {
            change[Math.Max(0, Period.DaysBetween(from, row.Days.Start))] += row.Spaces.Count;
            change[Math.Min(days, Period.DaysBetween(from, row.Days.End) + 1)] -= row.Spaces.Count;
        }

        var (capacity, load) = (benches.Sum(bench => bench.Capacity), 0);
        return [.. Enumerable.Range(0, days).Select(day => new HouseLoad(from.PlusDays(day), load += change[day], capacity))];
    }

    private static HouseBench BenchOf(
        Bench bench, IEnumerable<HeatZone> zones, List<ZoneSetpoint> spans, LocalDate day, IReadOnlyList<BenchTrays> trays,
        IReadOnlyList<HeldBy> outages)
    {
        var taken = trays.Where(row => row.FirstSpace is not null)
            .SelectMany(row => Enumerable.Range(row.FirstSpace!.Value, row.Spaces!.Value))
            .Concat(outages.SelectMany(held => Enumerable.Range(held.Run.First, held.Run.Count))).Distinct().Count();
        return new HouseBench(
            bench.Id.Value, bench.Code, bench.Name, bench.Kind, bench.Band,
            bench.XCm, bench.YCm, bench.LengthCm, bench.WidthCm, bench.Capacity, bench.Rows, bench.Capacity - taken,
            [
                .. zones.OrderBy(zone => zone.Spaces.First).Select(zone => new HouseZone(
                    zone.Code, zone.Spaces.First, zone.Spaces.Count, new ZoneProgram(zone, spans).On(day), zone.ReadsC)),
            ],
            [.. trays.OrderBy(row => row.FirstSpace ?? int.MaxValue).ThenBy(row => row.FirstRow)])
        {
            OutOfUse = [.. outages.Select(held => new HouseOutage(held.Run.First, held.Run.Count, held.Out!.Message))],
        };
    }

    private static async Task<List<(Id<Bench> Bench, BenchTrays Trays)>> TraysAsync(
        NurseryDbContext database, Actor actor, LocalDate day, LocalDate today, CancellationToken cancellation)
    {
        var reserved = await database.Reservations.AsNoTracking()
            .Where(row => row.SiteId == actor.SiteId && row.Days.Contains(day)).ToListAsync(cancellation);
        var standing = day == today
            ? await database.Standings.AsNoTracking().Where(row => row.SiteId == actor.SiteId).ToListAsync(cancellation)
            : [];
        var traySets = reserved.Select(row => row.TraySetId).Concat(standing.Select(row => row.TraySetId)).Distinct().ToList();
        var batches = (await database.BatchRows(actor.SiteId).AsNoTracking()
            .Where(row => traySets.Contains(row.TraySet.Id)).ToListAsync(cancellation)).ToLookup(row => row.TraySet.Id);
        var facts = standing.Select(row => (row.TraySetId, row.BenchId, row.Spaces)).ToHashSet();
        var plans = reserved.Select(row => (row.TraySetId, row.BenchId, (SpaceRun?)row.Spaces)).ToHashSet();
        var found = new List<(Id<Bench>, BenchTrays)>();
        foreach (var plan in reserved)
        {
            var there = facts.Contains((plan.TraySetId, plan.BenchId, plan.Spaces));
            found.AddRange(batches[plan.TraySetId].Select(batch => (
                plan.BenchId, Trays(batch, plan.Trays, plan.Spaces, true, there, plan.Days.Start, plan.To) with { ReservationId = plan.Id.Value })));
        }

        foreach (var fact in standing.Where(fact => !plans.Contains((fact.TraySetId, fact.BenchId, fact.Spaces))))
        {
            found.AddRange(batches[fact.TraySetId].Select(batch => (
                fact.BenchId, Trays(batch, fact.Trays, fact.Spaces, false, true, fact.Since, null))));
        }

        return found;
    }

    private static BenchTrays Trays(
        BatchRow row, SpaceRun trays, SpaceRun? spaces, bool reserved, bool standing, LocalDate from, LocalDate? to) => new(
            row.TraySet.Code,
            row.Batch.Id.Value,
            row.Batch.Code,
            row.Crop.Name,
            row.Variety.Name,
            row.Lot?.Code,
            row.Batch.State.Stage,
            trays.Count,
            row.TraySet.CellsPerTray,
            row.Batch.SeedsPerCell,
            spaces?.First,
            spaces?.Count,
            reserved,
            standing,
            row.Batch.SowOn,
            row.Batch.State.SownOn,
            row.Batch.ReadyOn,
            from,
            to,
            FirstTray: trays.First,
            Part: row.Share.Part(row.TraySet),
            FirstRow: row.Share.FirstRow,
            TraysInSet: row.TraySet.Trays);
}
