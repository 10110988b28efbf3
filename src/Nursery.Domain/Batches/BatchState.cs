using NodaTime;
using Nursery.Domain.SeedLots;

namespace Nursery.Domain.Batches;

/// <summary>What the ledger says of a batch. Made by <see cref="BatchStory.Fold"/> only.</summary>
public sealed record BatchState
{
    public static BatchState Planned { get; } = new();

    public BatchStage Stage { get; init; }
    public LocalDate? SownOn { get; init; }

    /// <summary>The lot the seed was taken from.</summary>
    public Id<SeedLot>? LotId { get; init; }
    public int SeedsSown { get; init; }
    public int CellsSown { get; init; }

    /// <summary>Seeds of the cells that were counted, and the seedlings in them: the count that says most of emergence.</summary>
    public int? CountedSeeds { get; init; }
    public decimal? CountedUp { get; init; }
    public LocalDate? CountedOn { get; init; }

    /// <summary>Day of the first sign of plants.</summary>
    public LocalDate? FirstUpOn { get; init; }

    /// <summary>Day someone last looked for plants.</summary>
    public LocalDate? LookedOn { get; init; }
    public LocalDate? WateredOn { get; init; }
    public LocalDate? OffHeatOn { get; init; }
    public LocalDate? ThinnedOn { get; init; }
    public LocalDate? FedOn { get; init; }

    /// <summary>Day the trays were set apart.</summary>
    public LocalDate? SpacedOn { get; init; }

    /// <summary>Day hardening off began.</summary>
    public LocalDate? HardenedOn { get; init; }

    /// <summary>Day someone last looked whether the plants are ready, and saw that they are not.</summary>
    public LocalDate? ReadyLookedOn { get; init; }

    /// <summary>Day someone said the plants are ready.</summary>
    public LocalDate? ReadySeenOn { get; init; }
    public LocalDate? HandedOverOn { get; init; }
    public LocalDate? DiscardedOn { get; init; }

    /// <summary>Day its spaces were cleared after it was gone.</summary>
    public LocalDate? ClearedOn { get; init; }

    /// <summary>Cells with a plant, of all cells, by the last count of any kind.</summary>
    public int? CellsUp { get; init; }

    /// <summary>Plants reported lost since sowing.</summary>
    public int Lost { get; init; }

    /// <summary>Emerged seedlings per seed sown, 0–1; null before the first count.</summary>
    public decimal? EmergedFraction => CountedSeeds is > 0 && CountedUp is { } up ? up / CountedSeeds.Value : null;
}
