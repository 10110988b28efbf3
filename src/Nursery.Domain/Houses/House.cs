using NodaTime;
using Nursery.Domain.Sites;

namespace Nursery.Domain.Houses;

/// <summary>A heated house, seen from above: x runs along its length, y across its width.</summary>
public sealed class House
{
    /// <summary>Where nobody said what the air is kept at, °C: 64 °F (from memory).</summary>
    public const decimal AssumedAirC = 18;

    public required Id<House> Id { get; init; }
    public required Id<Site> SiteId { get; init; }
    public required string Code { get; set; }
    public required string Name { get; set; }
    public required int LengthCm { get; set; }
    public required int WidthCm { get; set; }

    /// <summary>Place in the walking order of a round, from 1.</summary>
    public required int RoundOrder { get; set; }

    /// <summary>Share of the light outside that its cover lets through, 0.05–1; null: assumed.</summary>
    public decimal? CoverShare { get; set; }

    /// <summary>What its lamps give at the leaves, µmol m⁻² s⁻¹, and take, W for each m² lit; null without lamps.</summary>
    public decimal? LampPpfd { get; set; }
    public decimal? LampWattsM2 { get; set; }

    /// <summary>What the air is kept at, °C, 0–40; null: assumed.</summary>
    public decimal? AirC { get; set; }
    public LocalDate? RetiredOn { get; set; }
    public int Version { get; set; } = 1;
}
