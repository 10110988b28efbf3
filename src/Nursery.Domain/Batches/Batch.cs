using NodaTime;
using Nursery.Domain.Crops;
using Nursery.Domain.SeedLots;
using Nursery.Domain.Sites;

namespace Nursery.Domain.Batches;

/// <summary>One variety, one lot, one sowing day. What is planned stands here; what happened is <see cref="State"/>.</summary>
public sealed class Batch
{
    public required Id<Batch> Id { get; init; }
    public required Id<Site> SiteId { get; init; }
    public required string Code { get; init; }
    public required Id<Variety> VarietyId { get; init; }

    /// <summary>The lot meant for it; may follow at sowing.</summary>
    public Id<SeedLot>? LotId { get; set; }

    /// <summary>The batch whose short stand this one makes up for.</summary>
    public Id<Batch>? ResownFor { get; init; }
    public required int Cells { get; set; }
    public required int SeedsPerCell { get; set; }

    /// <summary>Planned sowing day.</summary>
    public required LocalDate SowOn { get; set; }

    /// <summary>Day the plants are planned to be ready.</summary>
    public required LocalDate ReadyOn { get; set; }

    /// <summary>The fold of the ledger, stored.</summary>
    public BatchState State { get; set; } = BatchState.Planned;
    public int Version { get; set; } = 1;
}
