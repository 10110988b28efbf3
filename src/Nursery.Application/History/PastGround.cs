using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Benches;
using Nursery.Domain.Crops;
using Nursery.Domain.People;
using Nursery.Domain.Sites;
using Nursery.Past;

namespace Nursery.Application.History;

/// <summary>The demo nursery as the season generator sees it, and the people of its past.</summary>
/// <param name="Site">The demo site.</param>
/// <param name="Nursery">Its benches, crops and what is held.</param>
/// <param name="Day">Day 0 of the past: the day its loading began.</param>
/// <param name="Workers">Who works on the rounds; the first is the head grower, who plans too.</param>
internal sealed record PastGround(Site Site, PastNursery Nursery, LocalDate Day, IReadOnlyList<Actor> Workers)
{
    /// <summary>Numbers of the past's orders and lots begin so; the demo's own begin otherwise.</summary>
    private const string Prefix = "S-";

    public Actor Planner => Workers[0];

    public Instant At(int day, LocalTime time) => Site.Zone.AtLeniently(Day.PlusDays(day) + time).ToInstant();

    /// <exception cref="NoDemoNursery">There is none.</exception>
    public static async Task<PastGround> ReadAsync(NurseryDbContext database, TimeProvider time, CancellationToken cancellation)
    {
        var site = await database.Sites.AsNoTracking().Where(row => row.IsDemo).OrderBy(row => row.Code).FirstOrDefaultAsync(cancellation)
            ?? throw new NoDemoNursery();
        var people = await (
            from role in database.PersonSites
            join person in database.Users on role.PersonId equals person.Id
            where role.SiteId == site.Id && (role.Role == Role.HeadGrower || role.Role == Role.Staff)
            orderby person.UserName
            select new { role.Role, Actor = new { role.PersonId, person.DisplayName } }).ToListAsync(cancellation);
        var workers = people.OrderByDescending(person => person.Role == Role.HeadGrower)
            .Select(person => new Actor(person.Actor.PersonId, person.Actor.DisplayName, site.Id, RoleRights.Of(person.Role))).ToList();
        if (workers.Count == 0 || people.All(person => person.Role != Role.HeadGrower))
        {
            throw new NoDemoNursery();
        }

        var day = await DayAsync(database, site, time, cancellation);
        var crops = await database.Crops.AsNoTracking().Where(crop => crop.RetiredOn == null).ToListAsync(cancellation);
        var varieties = await database.Varieties.AsNoTracking().Where(variety => variety.RetiredOn == null).ToListAsync(cancellation);
        var codes = crops.ToDictionary(crop => crop.Id, crop => crop.Code);
        return new PastGround(
            site,
            new PastNursery(
                await BenchesAsync(database, site, cancellation),
                [.. crops.OrderBy(crop => crop.Code, StringComparer.Ordinal).Select(AsPast)],
                [
                    .. varieties.Where(variety => codes.ContainsKey(variety.CropId)).OrderBy(variety => variety.Code, StringComparer.Ordinal)
                        .Select(variety => (variety.Code, codes[variety.CropId])),
                ],
                await CustomersAsync(database, site, cancellation),
                await HeldAsync(database, site, day, cancellation),
                workers.Count),
            day,
            workers);
    }

    /// <summary>When a part of the past is there already, it goes on from the same day: its seed came on the past's first day.</summary>
    private static async Task<LocalDate> DayAsync(NurseryDbContext database, Site site, TimeProvider time, CancellationToken cancellation)
    {
        var begun = await database.Ledger.AsNoTracking()
            .Where(entry => entry.SiteId == site.Id && entry.Kind == Domain.Ledger.LedgerKind.Receipt
                && database.SeedLots.Any(lot => lot.Id == entry.LotId && lot.Code.StartsWith(Prefix)))
            .Select(entry => (Instant?)entry.RecordedAt).MinAsync(cancellation);
        return begun is { } received ? site.DayOf(received).PlusDays(SeasonMaker.Days) : site.Today(time);
    }

    private static async Task<IReadOnlyList<PastBench>> BenchesAsync(NurseryDbContext database, Site site, CancellationToken cancellation)
    {
        var rows = await (
            from bench in database.Benches
            join house in database.Houses on bench.HouseId equals house.Id
            where bench.SiteId == site.Id && bench.RetiredOn == null
            orderby house.RoundOrder, bench.RoundOrder, bench.Code
            select bench).AsNoTracking().ToListAsync(cancellation);
        var zones = (await database.HeatZones.AsNoTracking().Where(zone => zone.SiteId == site.Id).ToListAsync(cancellation))
            .ToLookup(zone => zone.BenchId);
        return
        [
            .. rows.Select(bench => new PastBench(
                bench.Code,
                UseOf(bench),
                bench.Capacity,
                [
                    .. zones[bench.Id].OrderBy(zone => zone.Spaces.First).Select(zone => new PastZone(
                        zone.Code, zone.Spaces.First, zone.Spaces.Count, (double)zone.SetpointC, (double?)zone.ReadsC)),
                ])),
        ];
    }

    private static async Task<IReadOnlyList<string>> CustomersAsync(NurseryDbContext database, Site site, CancellationToken cancellation) =>
    [
        .. (await (
            from customer in database.Customers
            where database.Orders.Any(order => order.CustomerId == customer.Id && order.SiteId == site.Id)
            select customer.Name).ToListAsync(cancellation)).Order(StringComparer.Ordinal),
    ];

    /// <summary>Past days of what others hold; those never change.</summary>
    private static async Task<IReadOnlyList<PastHeld>> HeldAsync(
        NurseryDbContext database, Site site, LocalDate day, CancellationToken cancellation)
    {
        var rows = await (
            from reservation in database.Reservations
            join bench in database.Benches on reservation.BenchId equals bench.Id
            where reservation.SiteId == site.Id && reservation.Days.Start < day
                && !(from share in database.TrayShares
                     join allocation in database.Allocations on share.BatchId equals allocation.BatchId
                     join line in database.OrderLines on allocation.OrderLineId equals line.Id
                     join order in database.Orders on line.OrderId equals order.Id
                     where share.TraySetId == reservation.TraySetId && order.Number.StartsWith(Prefix)
                     select share).Any()
            select new { bench.Code, reservation.Spaces, reservation.Days }).AsNoTracking().ToListAsync(cancellation);
        return
        [
            .. rows.Select(row => new PastHeld(
                    row.Code,
                    row.Spaces.First,
                    row.Spaces.Count,
                    Period.DaysBetween(day, row.Days.Start),
                    Math.Min(0, Period.DaysBetween(day, row.Days.End) + 1)))
                .OrderBy(row => row.Bench, StringComparer.Ordinal).ThenBy(row => row.FirstSpace).ThenBy(row => row.From),
        ];
    }

    private static PastUse UseOf(Bench bench) => bench switch
    {
        { Kind: BenchKind.Germination } => PastUse.Heat,
        { Kind: BenchKind.Hardening } => PastUse.Hardening,
        { Band: Band.Cool } => PastUse.Cool,
        _ => PastUse.Warm,
    };

    private static PastCrop AsPast(Crop crop) => new(
        crop.Code,
        (double)crop.GerminationMinC,
        (double)crop.GerminationOptimumC,
        (double)crop.GerminationMaxC,
        crop.DaysToEmergence,
        crop.DaysToReady,
        crop.PlannedHeatDays,
        crop.HardeningDays,
        crop.CellsPerTray,
        crop.SeedsPerCell,
        (double)crop.MoveOffFraction,
        crop.ThinDaysAfterEmergence,
        crop.GrowOnBand == Band.Cool ? PastUse.Cool : PastUse.Warm);
}
