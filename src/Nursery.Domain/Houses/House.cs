using NodaTime;
using Nursery.Domain.Sites;

namespace Nursery.Domain.Houses;

/// <summary>A heated house, seen from above: x runs along its length, y across its width.</summary>
public sealed class House
{
    public required Id<House> Id { get; init; }
    public required Id<Site> SiteId { get; init; }
    public required string Code { get; set; }
    public required string Name { get; set; }
    public required int LengthCm { get; set; }
    public required int WidthCm { get; set; }

    /// <summary>Place in the walking order of a round, from 1.</summary>
    public required int RoundOrder { get; set; }
    public LocalDate? RetiredOn { get; set; }
    public int Version { get; set; } = 1;
}
