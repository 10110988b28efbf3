using NodaTime;
using Nursery.Domain.Sites;

namespace Nursery.Domain.People;

/// <summary>A key of another system for one site. Only the SHA-256 of its secret is stored; the secret has 256 random bits.</summary>
public sealed class ApiKey
{
    public required Id<ApiKey> Id { get; init; }
    public required Id<Site> SiteId { get; init; }
    public required string Name { get; init; }
    public required byte[] SecretHash { get; init; }

    /// <summary>Scopes, the names of <see cref="Right"/>.</summary>
    public required Right[] Scopes { get; init; }
    public required Instant CreatedAt { get; init; }
    public Instant? ExpiresAt { get; init; }
    public Instant? RevokedAt { get; set; }
}
