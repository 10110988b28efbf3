using Nursery.Domain;
using Nursery.Domain.Sites;

namespace Nursery.Data.Batches;

/// <summary>The last number given to a batch of a crop on a site.</summary>
public sealed class CodeCounter
{
    public required Id<Site> SiteId { get; init; }
    public required string Prefix { get; init; }
    public int Last { get; set; }
}
