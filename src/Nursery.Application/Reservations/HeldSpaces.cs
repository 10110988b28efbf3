using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Benches;
using Nursery.Domain.Refusals;
using Nursery.Domain.Reservations;
using Nursery.Planning;

namespace Nursery.Application.Reservations;

/// <summary>Spaces of a bench held by a tray set, or out of use; <paramref name="Until"/> is the first day no longer held.</summary>
/// <param name="Out">Why nobody can have them; null when trays hold them.</param>
internal sealed record HeldBy(Id<Bench> BenchId, SpaceRun Run, string TraySetCode, LocalDate From, LocalDate Until, NotInUse? Out = null)
{
    public Held AsHeld() => new(BenchId.Value, Run.First, Run.Count, From.ToDateOnly(), Until.ToDateOnly());
}

internal static class HeldSpaces
{
    /// <summary>Reservations on benches, and spaces out of use, that touch the days from a day to the first day no longer asked for.</summary>
    public static async Task<IReadOnlyList<HeldBy>> OnAsync(
        NurseryDbContext database,
        IReadOnlyCollection<Id<Bench>> benches,
        LocalDate from,
        LocalDate to,
        CancellationToken cancellation,
        Id<Reservation>? except = null)
    {
        var last = to.PlusDays(-1);
        var rows = await (
            from reservation in database.Reservations
            join traySet in database.TraySets on reservation.TraySetId equals traySet.Id
            where benches.Contains(reservation.BenchId)
                && (except == null || reservation.Id != except)
                && reservation.Days.Start <= last && reservation.Days.End >= @from
            select new { reservation, traySet.Code }).AsNoTracking().ToListAsync(cancellation);
        return
        [
            .. rows.Select(row => new HeldBy(
                row.reservation.BenchId, row.reservation.Spaces, row.Code, row.reservation.Days.Start, row.reservation.To)),
            .. await OutOfUseAsync(database, benches, from, to, cancellation),
        ];
    }

    /// <summary>Spaces of benches that are out of use on some of the days from a day to the first day no longer asked for.</summary>
    public static async Task<IReadOnlyList<HeldBy>> OutOfUseAsync(
        NurseryDbContext database, IReadOnlyCollection<Id<Bench>> benches, LocalDate from, LocalDate to, CancellationToken cancellation)
    {
        // A zone may lie on another bench by now.
        var last = to.PlusDays(-1);
        var rows = await (
            from outage in database.Outages
            from zone in database.HeatZones.Where(zone => zone.Id == outage.ZoneId).DefaultIfEmpty()
            join bench in database.Benches on zone == null ? outage.BenchId : zone.BenchId equals bench.Id
            where benches.Contains(bench.Id) && outage.Days.Start <= last && outage.Days.End >= @from
            select new { Outage = outage, Bench = bench, Zone = zone }).AsNoTracking().ToListAsync(cancellation);
        return
        [
            .. rows.OrderBy(row => row.Outage.Days.Start).ThenBy(row => row.Outage.Id).Select(row => new HeldBy(
                row.Bench.Id, row.Zone?.Spaces ?? new SpaceRun(1, row.Bench.Capacity), "", row.Outage.Days.Start, row.Outage.To,
                new NotInUse(row.Bench.Code, row.Zone?.Code, row.Outage.Days.Start, row.Outage.To, row.Outage.Why))),
        ];
    }
}
