using System.Buffers.Text;
using System.Security.Cryptography;
using System.Text;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Ledger;
using Nursery.Domain.People;
using Nursery.Domain.Sites;

namespace Nursery.Application.Access;

/// <summary>A new key; the secret is shown once and never stored.</summary>
public sealed record IssuedApiKey(Guid Id, string Secret);

public sealed class IssueApiKey(IDbContextFactory<NurseryDbContext> databases, TimeProvider time)
{
    public async Task<IssuedApiKey> HandleAsync(
        string name, IReadOnlyCollection<Right> scopes, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Admin);
        new FieldChecks().Text("name", name, 100).Done();
        var (key, secret) = Make(name.Trim(), scopes, actor.SiteId, time);
        await using var database = await databases.CreateDbContextAsync(cancellation);
        database.ApiKeys.Add(key);
        var at = await database.SiteOfAsync(actor, cancellation);
        database.Write(at, actor, time, new Changed("API key", key.Name, null, Told(key)));
        await database.SaveChangesAsync(cancellation);
        return new IssuedApiKey(key.Id.Value, secret);
    }

    /// <summary>What the ledger says of a key.</summary>
    internal static Dictionary<string, string> Told(ApiKey key) => new()
    {
        ["id"] = key.Id.ToString(),
        ["scopes"] = string.Join(' ', key.Scopes).ToLowerInvariant(),
    };

    internal static (ApiKey Key, string Secret) Make(
        string name, IReadOnlyCollection<Right> scopes, Id<Site> site, TimeProvider time)
    {
        var secret = "nur_" + Base64Url.EncodeToString(RandomNumberGenerator.GetBytes(32));
        var key = new ApiKey
        {
            Id = NewId.Of<ApiKey>(time),
            SiteId = site,
            Name = name,
            SecretHash = SHA256.HashData(Encoding.UTF8.GetBytes(secret)),
            Scopes = [.. scopes.Distinct().Order()],
            CreatedAt = Instant.FromDateTimeOffset(time.GetUtcNow()),
        };
        return (key, secret);
    }
}
