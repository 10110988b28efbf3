using Nursery.Domain.Benches;

namespace Nursery.Domain.Ledger;

/// <summary>Trays were carried to a bench.</summary>
public sealed record Moved(SpaceRun Trays, Id<Bench> Bench, BenchKind BenchKind, int? FirstSpace) : Placement(Trays, Bench, BenchKind, FirstSpace)
{
    protected override LedgerKind OwnKind => LedgerKind.Moved;
}
