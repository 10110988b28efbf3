using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Benches;
using Nursery.Planning;

namespace Nursery.Application.Reservations;

/// <summary>Spaces of a bench held by a tray set; <paramref name="Until"/> is the first day no longer held.</summary>
internal sealed record HeldBy(Id<Bench> BenchId, SpaceRun Run, string TraySetCode, LocalDate From, LocalDate Until)
{
    public Held AsHeld() => new(BenchId.Value, Run.First, Run.Count, From.ToDateOnly(), Until.ToDateOnly());
}

internal static class HeldSpaces
{
    /// <summary>Reservations on benches that touch the days from a day to the first day no longer asked for.</summary>
    public static async Task<IReadOnlyList<HeldBy>> OnAsync(
        NurseryDbContext database,
        IReadOnlyCollection<Id<Bench>> benches,
        LocalDate from,
        LocalDate to,
        CancellationToken cancellation)
    {
        var last = to.PlusDays(-1);
        var rows = await (
            from reservation in database.Reservations
            join traySet in database.TraySets on reservation.TraySetId equals traySet.Id
            where benches.Contains(reservation.BenchId)
                && reservation.Days.Start <= last && reservation.Days.End >= @from
            select new { reservation, traySet.Code }).AsNoTracking().ToListAsync(cancellation);
        return
        [
            .. rows.Select(row => new HeldBy(
                row.reservation.BenchId, row.reservation.Spaces, row.Code, row.reservation.Days.Start, row.reservation.To)),
        ];
    }
}
