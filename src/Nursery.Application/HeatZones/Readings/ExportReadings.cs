using Microsoft.EntityFrameworkCore;
using Nursery.Application.Exports;
using Nursery.Data;
using Nursery.Domain.People;

namespace Nursery.Application.HeatZones.Readings;

/// <summary>Every reading of the heat zones as the CSV their import reads, by zone and moment.</summary>
public sealed class ExportReadings(IDbContextFactory<NurseryDbContext> databases)
{
    public Task<Func<Stream, Task>> HandleAsync(Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Read);
        return Task.FromResult<Func<Stream, Task>>(async stream =>
        {
            await using var database = await databases.CreateDbContextAsync(cancellation);
            await using var text = new StreamWriter(stream, leaveOpen: true);
            await text.WriteAsync(CsvLine.Of([.. ImportReadings.Columns]));
            var rows = from reading in database.ZoneReadings
                       join zone in database.HeatZones on reading.ZoneId equals zone.Id
                       where reading.SiteId == actor.SiteId
                       orderby zone.Code, reading.At
                       select new { zone.Code, reading.At, reading.TemperatureC };
            await foreach (var row in rows.AsNoTracking().AsAsyncEnumerable().WithCancellation(cancellation))
            {
                await text.WriteAsync(CsvLine.Of(row.Code, row.At, row.TemperatureC));
            }
        });
    }
}
