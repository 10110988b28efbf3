using System.Text;
using Microsoft.EntityFrameworkCore;
using Nursery.Data;
using Nursery.Domain.People;

namespace Nursery.Application.Exports;

/// <summary>Spans of days with another setpoint as CSV. The zones' own setpoints stand in the list of heat zones.</summary>
public sealed class ExportSetpoints(IDbContextFactory<NurseryDbContext> databases)
{
    public async Task<byte[]> HandleAsync(Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Read);
        await using var database = await databases.CreateDbContextAsync(cancellation);
        var rows = await (
            from setpoint in database.ZoneSetpoints
            join zone in database.HeatZones on setpoint.ZoneId equals zone.Id
            join bench in database.Benches on zone.BenchId equals bench.Id
            where setpoint.SiteId == actor.SiteId
            select new { setpoint, Zone = zone.Code, Bench = bench.Code }).AsNoTracking().ToListAsync(cancellation);
        var lines = rows.OrderBy(row => row.Zone, StringComparer.Ordinal)
            .ThenBy(row => row.setpoint.Days.Start)
            .Select(row => CsvLine.Of(
                row.Zone, row.Bench, row.setpoint.Days.Start, row.setpoint.Days.End.PlusDays(1), row.setpoint.SetpointC))
            .Prepend(CsvLine.Of("heat_zone", "bench", "from", "to", "setpoint_c"));
        return Encoding.UTF8.GetBytes(string.Concat(lines));
    }
}
