using Microsoft.EntityFrameworkCore;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain.People;

namespace Nursery.Application.Outages;

/// <summary>Benches and heat zones that are out of use today or will be.</summary>
public sealed class ListOutages(IDbContextFactory<NurseryDbContext> databases, TimeProvider time)
{
    public async Task<Page<OutageItem>> HandleAsync(Paging paging, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Read);
        await using var database = await databases.CreateDbContextAsync(cancellation);
        var site = await database.SiteOfAsync(actor, cancellation);
        return paging.Cut(await OutageItems.LoadAsync(database, site.Id, site.Today(time), cancellation));
    }
}
