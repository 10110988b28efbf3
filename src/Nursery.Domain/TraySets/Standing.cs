using NodaTime;
using Nursery.Domain.Benches;
using Nursery.Domain.Ledger;
using Nursery.Domain.Sites;

namespace Nursery.Domain.TraySets;

/// <summary>The fact: which trays stand where since when. Folded from the ledger; it may disagree with the plan.</summary>
public sealed class Standing
{
    public required Id<Standing> Id { get; init; }
    public required Id<Site> SiteId { get; init; }
    public required Id<TraySet> TraySetId { get; init; }
    public required SpaceRun Trays { get; init; }
    public required Id<Bench> BenchId { get; init; }

    /// <summary>Null when whoever carried the trays did not say where on the bench.</summary>
    public SpaceRun? Spaces { get; init; }
    public required LocalDate Since { get; init; }
    public required Id<LedgerEntry> EntryId { get; init; }
}
