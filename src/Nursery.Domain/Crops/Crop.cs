using NodaTime;
using Nursery.Domain.Benches;

namespace Nursery.Domain.Crops;

/// <summary>A crop and its profile: heat, then a bench under light, then hardening off. Shared by all sites.</summary>
public sealed class Crop
{
    public required Id<Crop> Id { get; init; }

    /// <summary>Two capital letters; batch codes start with them.</summary>
    public required string Code { get; set; }
    public required string Name { get; set; }
    public required string Species { get; set; }

    /// <summary>Media temperature below which seed does not germinate usefully, °C.</summary>
    public required decimal GerminationMinC { get; set; }
    public required decimal GerminationOptimumC { get; set; }
    public required decimal GerminationMaxC { get; set; }

    /// <summary>Days from sowing to emergence at the optimum, 1 or more.</summary>
    public required int DaysToEmergence { get; set; }

    /// <summary>Weeks from sowing to a transplant ready to hand over.</summary>
    public required decimal WeeksToTransplant { get; set; }

    /// <summary>Sowing depth, mm; 0 is on the surface.</summary>
    public required decimal DepthMm { get; set; }
    public required LightNeed Light { get; set; }
    public required int CellsPerTray { get; set; }
    public required int SeedsPerCell { get; set; }

    /// <summary>Share of the expected plants up at which trays leave the heat, 0–1.</summary>
    public required decimal MoveOffFraction { get; set; }

    /// <summary>Days from emergence to thinning; null is never thinned.</summary>
    public int? ThinDaysAfterEmergence { get; set; }

    /// <summary>Days from emergence to the first feed; null is never fed.</summary>
    public int? FeedFromDays { get; set; }

    /// <summary>Days between feeds.</summary>
    public int? FeedEveryDays { get; set; }

    /// <summary>Days from emergence to setting the trays apart; null leaves them standing tight.</summary>
    public int? SpaceDays { get; set; }
    public required int HardeningDays { get; set; }
    public required Band GrowOnBand { get; set; }

    /// <summary>Fewest and most plants kept in a cell, 1–15: both null is one, or a clump where several seeds are sown and never thinned.</summary>
    public int? KeepLow { get; set; }
    public int? KeepHigh { get; set; }

    /// <summary>Share of the emerged that become usable plants, on average, 0.05–0.999; null is the default of the sowing terms.</summary>
    public decimal? Survival { get; set; }

    /// <summary>A thousand seeds, in the site's currency; null is the site's price.</summary>
    public decimal? SeedPrice { get; set; }

    /// <summary>Where each value is from, in words.</summary>
    public required string Sources { get; set; }
    public LocalDate? RetiredOn { get; set; }
    public int Version { get; set; } = 1;

    public int DaysToReady => (int)Math.Round(WeeksToTransplant * 7, MidpointRounding.AwayFromZero);

    /// <summary>Days the plan keeps trays on heat: to emergence, and two more for the slow ones (common practice, no source).</summary>
    public int PlannedHeatDays => DaysToEmergence + 2;

    /// <summary>Days from emergence to the first true leaf: when it is thinned, else ten (from memory).</summary>
    public int TrueLeafDays => ThinDaysAfterEmergence ?? 10;

    /// <summary>Whether seed of this crop may lie at a constant setpoint.</summary>
    public bool Accepts(decimal setpointC) => setpointC >= GerminationMinC && setpointC <= GerminationMaxC;
}
