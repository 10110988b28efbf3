using System.Security.Cryptography;
using System.Text;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Data;
using Nursery.Domain.People;

namespace Nursery.Application.Access;

/// <summary>Who stands behind a sign-in or an API key; null when nobody who may act does.</summary>
public sealed class FindActor(IDbContextFactory<NurseryDbContext> databases, TimeProvider time)
{
    /// <summary>A person on the site where they have a role (the first one by code when they have several).</summary>
    public async Task<Actor?> ByPersonAsync(Guid personId, string? device = null, CancellationToken cancellation = default)
    {
        await using var database = await databases.CreateDbContextAsync(cancellation);
        var row = await (
            from role in database.PersonSites
            join person in database.Users on role.PersonId equals person.Id
            join site in database.Sites on role.SiteId equals site.Id
            where role.PersonId == personId
            orderby site.Code
            select new { person.DisplayName, role.SiteId, role.Role }).FirstOrDefaultAsync(cancellation);
        return row is null ? null : new Actor(personId, row.DisplayName, row.SiteId, RoleRights.Of(row.Role), device);
    }

    /// <summary>The API key with this secret (nur_…), unless it is revoked or over.</summary>
    public async Task<Actor?> ByApiKeyAsync(string secret, CancellationToken cancellation = default)
    {
        var hash = SHA256.HashData(Encoding.UTF8.GetBytes(secret));
        await using var database = await databases.CreateDbContextAsync(cancellation);
        var now = Instant.FromDateTimeOffset(time.GetUtcNow());
        var key = await database.ApiKeys.AsNoTracking().SingleOrDefaultAsync(
            row => row.SecretHash == hash && row.RevokedAt == null && (row.ExpiresAt == null || row.ExpiresAt > now), cancellation);
        return key is null ? null : new Actor(key.Id.Value, key.Name, key.SiteId, key.Scopes.ToHashSet());
    }
}
