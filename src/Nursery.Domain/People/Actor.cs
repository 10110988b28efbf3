using Nursery.Domain.Refusals;
using Nursery.Domain.Sites;

namespace Nursery.Domain.People;

/// <summary>Who asks: a person or an API key, on which site, from which device.</summary>
public sealed record Actor(Guid Id, string Name, Id<Site> SiteId, IReadOnlySet<Right> Rights, string? Device = null)
{
    /// <summary>The first line of every use case.</summary>
    /// <exception cref="NotAllowed">The actor lacks the right.</exception>
    public void Must(Right right)
    {
        if (!Rights.Contains(right))
        {
            throw new NotAllowed(Name, right);
        }
    }
}
