using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Ledger;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;

namespace Nursery.Application.Access;

/// <summary>Ends a key at once; a second time changes nothing.</summary>
public sealed class RevokeApiKey(IDbContextFactory<NurseryDbContext> databases, TimeProvider time)
{
    public Task HandleAsync(Guid id, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Admin);
        return databases.RunAsync(
            async database =>
            {
                var wanted = new Id<ApiKey>(id);
                var key = await database.ApiKeys.SingleOrDefaultAsync(row => row.Id == wanted && row.SiteId == actor.SiteId, cancellation)
                    ?? throw new NotFound("API key", "id", id.ToString());
                if (key.RevokedAt is null)
                {
                    key.RevokedAt = Instant.FromDateTimeOffset(time.GetUtcNow());
                    var site = await database.SiteOfAsync(actor, cancellation);
                    database.Write(site, actor, time, new Changed("API key", key.Name, IssueApiKey.Told(key), null));
                }

                return await database.SaveChangesAsync(cancellation);
            },
            cancellation);
    }
}
