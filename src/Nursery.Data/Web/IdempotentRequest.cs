using NodaTime;
using Nursery.Domain;
using Nursery.Domain.Sites;

namespace Nursery.Data.Web;

/// <summary>A request sent with an Idempotency-Key and the answer it got, so that sending it again does nothing twice.</summary>
public sealed class IdempotentRequest
{
    public required Id<Site> SiteId { get; init; }
    public required Guid ActorId { get; init; }
    public required string Key { get; init; }

    /// <summary>SHA-256 of method, path and body.</summary>
    public required byte[] RequestHash { get; init; }
    public required Instant At { get; init; }

    /// <summary>Null while the first request is under way.</summary>
    public int? Status { get; set; }
    public string? ContentType { get; set; }
    public string? Body { get; set; }
}
