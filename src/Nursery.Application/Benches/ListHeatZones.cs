using Microsoft.EntityFrameworkCore;
using Nursery.Data;
using Nursery.Domain.People;

namespace Nursery.Application.Benches;

/// <summary>A heat zone; temperatures in °C, <paramref name="ReadsC"/> null before the first reading.</summary>
public sealed record HeatZoneItem(
    Guid Id, string Code, string House, string BenchCode, int FirstSpace, int Spaces, decimal SetpointC, decimal? ReadsC);

public sealed class ListHeatZones(IDbContextFactory<NurseryDbContext> databases)
{
    public async Task<Page<HeatZoneItem>> HandleAsync(Paging paging, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Read);
        await using var database = await databases.CreateDbContextAsync(cancellation);
        var rows = await (
            from zone in database.HeatZones
            join bench in database.Benches on zone.BenchId equals bench.Id
            join house in database.Houses on bench.HouseId equals house.Id
            where zone.SiteId == actor.SiteId && bench.RetiredOn == null
            orderby house.RoundOrder, bench.RoundOrder, zone.Code
            select new { zone, Bench = bench.Code, House = house.Code }).AsNoTracking().ToListAsync(cancellation);
        return paging.Cut(rows.ConvertAll(row => new HeatZoneItem(
            row.zone.Id.Value, row.zone.Code, row.House, row.Bench,
            row.zone.Spaces.First, row.zone.Spaces.Count, row.zone.SetpointC, row.zone.ReadsC)));
    }
}
