using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain.People;

namespace Nursery.Application.Access;

public sealed record ApiKeyItem(Guid Id, string Name, IReadOnlyList<Right> Scopes, LocalDate CreatedOn, LocalDate? RevokedOn);

/// <summary>The site's API keys, the newest first; never their secrets.</summary>
public sealed class ListApiKeys(IDbContextFactory<NurseryDbContext> databases)
{
    public async Task<IReadOnlyList<ApiKeyItem>> HandleAsync(Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Admin);
        await using var database = await databases.CreateDbContextAsync(cancellation);
        var site = await database.SiteOfAsync(actor, cancellation);
        var keys = await database.ApiKeys.AsNoTracking().Where(key => key.SiteId == actor.SiteId)
            .OrderByDescending(key => key.CreatedAt).ToListAsync(cancellation);
        return
        [
            .. keys.Select(key => new ApiKeyItem(
                key.Id.Value, key.Name, key.Scopes, site.DayOf(key.CreatedAt), key.RevokedAt is { } at ? site.DayOf(at) : null)),
        ];
    }
}
