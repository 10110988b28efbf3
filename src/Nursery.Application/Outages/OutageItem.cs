using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Benches;
using Nursery.Domain.Sites;

namespace Nursery.Application.Outages;

/// <summary>A bench or heat zone out of use.</summary>
/// <param name="ZoneCode">Null: the whole bench.</param>
/// <param name="To">First day it can be used again.</param>
/// <param name="TraySets">Codes of tray sets that hold spaces there on days still to come, or stand there today: they must go elsewhere.</param>
public sealed record OutageItem(
    Guid Id, string House, string BenchCode, string? ZoneCode, LocalDate From, LocalDate To, string? Why, string Who,
    IReadOnlyList<string> TraySets);

internal static class OutageItems
{
    /// <summary>Of a site, those that are not over on a day, in order of their first days.</summary>
    public static async Task<IReadOnlyList<OutageItem>> LoadAsync(
        NurseryDbContext database, Id<Site> site, LocalDate today, CancellationToken cancellation, Id<Outage>? only = null)
    {
        var rows = await (
            from outage in database.Outages
            from zone in database.HeatZones.Where(zone => zone.Id == outage.ZoneId).DefaultIfEmpty()
            join bench in database.Benches on zone == null ? outage.BenchId : zone.BenchId equals bench.Id
            join house in database.Houses on bench.HouseId equals house.Id
            where outage.SiteId == site && outage.Days.End >= today && (only == null || outage.Id == only)
            select new { Outage = outage, Bench = bench, Zone = zone, House = house.Code }).AsNoTracking().ToListAsync(cancellation);
        var benches = rows.ConvertAll(row => row.Bench.Id);
        var plan = await (
            from reservation in database.Reservations
            join traySet in database.TraySets on reservation.TraySetId equals traySet.Id
            where benches.Contains(reservation.BenchId) && reservation.Days.End >= today
            select new { reservation.BenchId, Spaces = (SpaceRun?)reservation.Spaces, reservation.Days, traySet.Code }).ToListAsync(cancellation);
        var fact = await (
            from standing in database.Standings
            join traySet in database.TraySets on standing.TraySetId equals traySet.Id
            where benches.Contains(standing.BenchId)
            select new { standing.BenchId, standing.Spaces, Days = new DateInterval(today, today), traySet.Code }).ToListAsync(cancellation);
        return
        [
            .. rows.OrderBy(row => row.Outage.Days.Start).ThenBy(row => row.Bench.Code, StringComparer.Ordinal).ThenBy(row => row.Zone?.Code, StringComparer.Ordinal)
                .Select(row => new OutageItem(
                    row.Outage.Id.Value, row.House, row.Bench.Code, row.Zone?.Code, row.Outage.Days.Start, row.Outage.To, row.Outage.Why, row.Outage.WhoName,
                    [
                        .. plan.Concat(fact).Where(trays => trays.BenchId == row.Bench.Id
                                && trays.Days.Start <= row.Outage.Days.End && trays.Days.End >= LocalDate.Max(today, row.Outage.Days.Start)
                                && (row.Zone is null || trays.Spaces is not { } spaces || row.Zone.Spaces.Overlaps(spaces)))
                            .Select(trays => trays.Code).Distinct().Order(StringComparer.Ordinal),
                    ])),
        ];
    }
}
