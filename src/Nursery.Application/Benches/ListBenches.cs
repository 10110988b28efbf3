using Microsoft.EntityFrameworkCore;
using Nursery.Data;
using Nursery.Domain.Benches;
using Nursery.Domain.People;

namespace Nursery.Application.Benches;

public sealed record BenchItem(Guid Id, string Code, string House, BenchKind Kind, Band? Band, int Spaces);

/// <summary>The site's benches in walking order.</summary>
public sealed class ListBenches(IDbContextFactory<NurseryDbContext> databases)
{
    public async Task<Page<BenchItem>> HandleAsync(Paging paging, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Read);
        await using var database = await databases.CreateDbContextAsync(cancellation);
        var all = await (
            from bench in database.Benches
            join house in database.Houses on bench.HouseId equals house.Id
            where bench.SiteId == actor.SiteId && bench.RetiredOn == null
            orderby house.RoundOrder, bench.RoundOrder, bench.Id
            select new BenchItem(bench.Id.Value, bench.Code, house.Code, bench.Kind, bench.Band, bench.Capacity))
            .ToListAsync(cancellation);
        return paging.Cut(all);
    }
}
