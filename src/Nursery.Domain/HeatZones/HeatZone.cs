using NodaTime;
using Nursery.Agronomy.Emergence;
using Nursery.Agronomy.Heat;
using Nursery.Domain.Benches;
using Nursery.Domain.Sites;

namespace Nursery.Domain.HeatZones;

/// <summary>A run of spaces of a germination bench on one thermostat.</summary>
public sealed class HeatZone
{
    public required Id<HeatZone> Id { get; init; }
    public required Id<Site> SiteId { get; init; }
    public required Id<Bench> BenchId { get; init; }
    public required string Code { get; set; }
    public required SpaceRun Spaces { get; set; }

    /// <summary>°C, 0–60.</summary>
    public required decimal SetpointC { get; set; }

    /// <summary>Last reading of the zone's probe, °C; null before the first.</summary>
    public decimal? ReadsC { get; set; }
    public Instant? ReadAt { get; set; }

    /// <summary>What its heating gives at full power, W/m², 20–500; null when nobody said.</summary>
    public decimal? MatWattsM2 { get; set; }

    /// <summary>How the mix differs from the setpoint as its seeds behave, °C, and the 90 % interval; learnt each night from
    /// <see cref="OffsetBatches"/> batches, null before.</summary>
    public decimal? OffsetC { get; set; }
    public decimal? OffsetLowC { get; set; }
    public decimal? OffsetHighC { get; set; }
    public int OffsetBatches { get; set; }

    /// <summary>What the mix is taken to differ from the setpoint, °C: learnt once enough batches spoke, else the usual.</summary>
    public decimal BelievedOffsetC => OffsetC is { } learnt && OffsetBatches >= ZoneOffset.FewestBatches ? learnt : MediaOffset.DefaultCelsius;
    public int Version { get; set; } = 1;
}
