using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.Benches;
using Nursery.Domain.Crops;
using Nursery.Domain.HeatZones;
using Nursery.Domain.Houses;
using Nursery.Domain.Refusals;
using Nursery.Domain.Reservations;
using Nursery.Domain.Sites;
using Nursery.Domain.TraySets;

namespace Nursery.Application.Plans;

/// <summary>A batch with its trays.</summary>
/// <param name="Wanted">Day the first order that waits for it wants plants; null when none does.</param>
/// <param name="Sharing">Batches in its trays, itself counted.</param>
internal sealed record SeasonBatch(Batch Batch, Variety Variety, Crop Crop, TraySet TraySet, int Sharing, LocalDate? Wanted)
{
    /// <summary>Whether a plan may give it other days and places.</summary>
    public bool MayMove => Sharing == 1 && Batch.State.Stage == BatchStage.Planned;
}

/// <summary>A bench, or one of its zones, out of use; <paramref name="To"/> is the first day it can be used again.</summary>
internal sealed record SeasonOutage(Id<Bench> BenchId, Id<HeatZone>? ZoneId, LocalDate From, LocalDate To, string? Why);

/// <summary>All rows of a site that a season is made of.</summary>
internal sealed record SeasonRows(
    Site Site, IReadOnlyList<House> Houses, IReadOnlyList<Bench> Benches, IReadOnlyList<ZoneProgram> Zones, IReadOnlyList<SeasonBatch> Batches,
    ILookup<Id<TraySet>, Reservation> Places, IReadOnlyList<SeasonOutage> Outages)
{
    /// <summary>Tray sets a plan may give other days and places.</summary>
    public IReadOnlySet<Id<TraySet>> Moving() => Batches.Where(row => row.MayMove).Select(row => row.TraySet.Id).ToHashSet();

    /// <summary>The zones under a run of spaces.</summary>
    public IEnumerable<ZoneProgram> ZonesUnder(Id<Bench> bench, SpaceRun spaces) =>
        Zones.Where(zone => zone.Zone.BenchId == bench && zone.Zone.Spaces.Overlaps(spaces));

    /// <summary>The bench and the spaces an outage is about, and its days; null when the bench is retired.</summary>
    public (Bench Bench, ZoneProgram? Zone, SpaceRun Spaces)? Hit(SeasonOutage outage)
    {
        var zone = outage.ZoneId is null ? null : Zones.FirstOrDefault(zone => zone.Zone.Id == outage.ZoneId);
        var benchId = zone?.Zone.BenchId ?? outage.BenchId;
        return Benches.FirstOrDefault(bench => bench.Id == benchId) is { } bench && (zone is not null || outage.ZoneId is null)
            ? (bench, zone, zone?.Zone.Spaces ?? new SpaceRun(1, bench.Capacity))
            : null;
    }

    /// <summary>Why spaces cannot be used from a day to the first day no longer asked for, in a sentence; null when they can.</summary>
    public string? OutOfUse(Id<Bench> bench, SpaceRun spaces, LocalDate from, LocalDate to) => Outages
        .Where(outage => outage.From < to && outage.To > from)
        .Select(outage => (Outage: outage, Hit: Hit(outage)))
        .Where(pair => pair.Hit is { } hit && hit.Bench.Id == bench && hit.Spaces.Overlaps(spaces))
        .OrderBy(pair => pair.Outage.From)
        .Select(pair => NotInUse.Sentence(pair.Hit!.Value.Bench.Code, pair.Hit.Value.Zone?.Zone.Code, pair.Outage.From, pair.Outage.To, pair.Outage.Why))
        .FirstOrDefault();

    public static async Task<SeasonRows> LoadAsync(NurseryDbContext database, Site site, LocalDate from, CancellationToken cancellation)
    {
        var houses = await database.Houses.AsNoTracking().Where(house => house.SiteId == site.Id).ToListAsync(cancellation);
        var order = houses.ToDictionary(house => house.Id, house => house.RoundOrder);
        var benches = await database.Benches.AsNoTracking().Where(bench => bench.SiteId == site.Id && bench.RetiredOn == null).ToListAsync(cancellation);
        var zones = await database.HeatZones.AsNoTracking().Where(zone => zone.SiteId == site.Id).ToListAsync(cancellation);
        var spans = await database.ZoneSetpoints.AsNoTracking().Where(span => span.SiteId == site.Id).ToListAsync(cancellation);
        var places = await database.Reservations.AsNoTracking()
            .Where(row => row.SiteId == site.Id && row.Days.End >= @from).ToListAsync(cancellation);
        var outages = await database.Outages.AsNoTracking()
            .Where(row => row.SiteId == site.Id && row.Days.End >= @from).ToListAsync(cancellation);
        return new SeasonRows(
            site,
            [.. houses.OrderBy(house => house.RoundOrder)],
            [.. benches.OrderBy(bench => order[bench.HouseId]).ThenBy(bench => bench.RoundOrder)],
            [.. benches.OrderBy(bench => order[bench.HouseId]).ThenBy(bench => bench.RoundOrder)
                .SelectMany(bench => zones.Where(zone => zone.BenchId == bench.Id).OrderBy(zone => zone.Spaces.First))
                .Select(zone => new ZoneProgram(zone, spans))],
            await BatchesAsync(database, site, cancellation),
            places.ToLookup(row => row.TraySetId),
            [.. outages.OrderBy(row => row.Days.Start).ThenBy(row => row.Id).Select(row => new SeasonOutage(row.BenchId, row.ZoneId, row.Days.Start, row.To, row.Why))]);
    }

    private static async Task<IReadOnlyList<SeasonBatch>> BatchesAsync(NurseryDbContext database, Site site, CancellationToken cancellation)
    {
        var rows = await (
            from batch in database.Batches
            join variety in database.Varieties on batch.VarietyId equals variety.Id
            join crop in database.Crops on variety.CropId equals crop.Id
            join share in database.TrayShares on batch.Id equals share.BatchId
            join traySet in database.TraySets on share.TraySetId equals traySet.Id
            where batch.SiteId == site.Id && batch.State.Stage != BatchStage.HandedOver && batch.State.Stage != BatchStage.Discarded
            select new { Batch = batch, Variety = variety, Crop = crop, TraySet = traySet }).AsNoTracking().ToListAsync(cancellation);
        var wanted = (await (
            from allocation in database.Allocations
            join line in database.OrderLines on allocation.OrderLineId equals line.Id
            from delivery in database.OrderDeliveries.Where(row => row.Id == allocation.DeliveryId).DefaultIfEmpty()
            where line.SiteId == site.Id
            select new { allocation.BatchId, Day = delivery == null ? line.ReadyOn : delivery.ReadyOn }).ToListAsync(cancellation))
            .GroupBy(row => row.BatchId).ToDictionary(group => group.Key, group => group.Min(row => row.Day));
        var inSet = rows.GroupBy(row => row.TraySet.Id).ToDictionary(group => group.Key, group => group.Count());
        var ofBatch = rows.GroupBy(row => row.Batch.Id).ToDictionary(group => group.Key, group => group.Count());
        return
        [
            .. rows.OrderBy(row => row.Batch.SowOn).ThenBy(row => row.Batch.Code, StringComparer.Ordinal).Select(row => new SeasonBatch(
                row.Batch, row.Variety, row.Crop, row.TraySet, Math.Max(inSet[row.TraySet.Id], ofBatch[row.Batch.Id]),
                wanted.TryGetValue(row.Batch.Id, out var day) ? day : null)),
        ];
    }
}
