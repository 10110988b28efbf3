using System.Text;
using Microsoft.EntityFrameworkCore;
using Nursery.Data;
using Nursery.Domain.People;

namespace Nursery.Application.Exports;

/// <summary>The fact as CSV: which trays stand where, by house and bench.</summary>
public sealed class ExportStandings(IDbContextFactory<NurseryDbContext> databases)
{
    public async Task<byte[]> HandleAsync(Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Read);
        await using var database = await databases.CreateDbContextAsync(cancellation);
        var rows = await (
            from standing in database.Standings
            join traySet in database.TraySets on standing.TraySetId equals traySet.Id
            join bench in database.Benches on standing.BenchId equals bench.Id
            join house in database.Houses on bench.HouseId equals house.Id
            where standing.SiteId == actor.SiteId
            select new { standing, TraySet = traySet.Code, Bench = bench.Code, House = house.Code }).AsNoTracking().ToListAsync(cancellation);
        var lines = rows.OrderBy(row => row.House, StringComparer.Ordinal)
            .ThenBy(row => row.Bench, StringComparer.Ordinal)
            .ThenBy(row => row.standing.Spaces?.First)
            .ThenBy(row => row.TraySet, StringComparer.Ordinal)
            .ThenBy(row => row.standing.Trays.First)
            .Select(row => CsvLine.Of(
                row.House, row.Bench, row.standing.Spaces?.First, row.standing.Spaces?.Count, row.TraySet, row.standing.Trays.First,
                row.standing.Trays.Count, row.standing.Since))
            .Prepend(CsvLine.Of("house", "bench", "first_space", "spaces", "tray_set", "first_tray", "trays", "since"));
        return Encoding.UTF8.GetBytes(string.Concat(lines));
    }
}
