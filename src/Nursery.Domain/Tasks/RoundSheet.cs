using NodaTime;
using Nursery.Domain.Sites;

namespace Nursery.Domain.Tasks;

/// <summary>A round sheet as it was printed: which task each line number means, whatever happens to the list afterwards.</summary>
public sealed class RoundSheet
{
    public required Id<RoundSheet> Id { get; init; }
    public required Id<Site> SiteId { get; init; }

    /// <summary>Printed on every page and typed first; counts from 1 on each site.</summary>
    public required int Number { get; init; }

    /// <summary>The day of the round.</summary>
    public required LocalDate Day { get; init; }

    public required Instant PrintedAt { get; init; }

    /// <summary>The tasks in the order of their lines; line 1 is the first.</summary>
    public required Guid[] TaskIds { get; init; }
}
