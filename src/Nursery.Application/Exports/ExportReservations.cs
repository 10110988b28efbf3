using System.Text;
using Microsoft.EntityFrameworkCore;
using Nursery.Data;
using Nursery.Domain.People;

namespace Nursery.Application.Exports;

/// <summary>The plan as CSV: every reservation of the site, by its first day.</summary>
public sealed class ExportReservations(IDbContextFactory<NurseryDbContext> databases)
{
    public async Task<byte[]> HandleAsync(Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Read);
        await using var database = await databases.CreateDbContextAsync(cancellation);
        var rows = await (
            from reservation in database.Reservations
            join traySet in database.TraySets on reservation.TraySetId equals traySet.Id
            join bench in database.Benches on reservation.BenchId equals bench.Id
            join house in database.Houses on bench.HouseId equals house.Id
            where reservation.SiteId == actor.SiteId
            select new { reservation, TraySet = traySet.Code, Bench = bench.Code, House = house.Code }).AsNoTracking().ToListAsync(cancellation);
        var lines = rows.OrderBy(row => row.reservation.Days.Start)
            .ThenBy(row => row.TraySet, StringComparer.Ordinal)
            .ThenBy(row => row.reservation.Trays.First)
            .ThenBy(row => row.reservation.Id)
            .Select(row => CsvLine.Of(
                row.reservation.Id.Value, row.TraySet, row.reservation.Trays.First, row.reservation.Trays.Count, row.House, row.Bench,
                row.reservation.Spaces.First, row.reservation.Spaces.Count, row.reservation.Days.Start, row.reservation.To))
            .Prepend(CsvLine.Of("id", "tray_set", "first_tray", "trays", "house", "bench", "first_space", "spaces", "from", "to"));
        return Encoding.UTF8.GetBytes(string.Concat(lines));
    }
}
