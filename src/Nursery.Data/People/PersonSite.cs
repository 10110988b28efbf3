using Nursery.Domain;
using Nursery.Domain.People;
using Nursery.Domain.Sites;

namespace Nursery.Data.People;

/// <summary>A person's role on a site.</summary>
public sealed class PersonSite
{
    public required Guid PersonId { get; init; }
    public required Id<Site> SiteId { get; init; }
    public required Role Role { get; set; }
}
