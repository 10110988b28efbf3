using Nursery.Domain.Benches;

namespace Nursery.Domain.Ledger;

/// <summary>Trays were put on a bench for the first time.</summary>
public sealed record Placed(SpaceRun Trays, Id<Bench> Bench, BenchKind BenchKind, int? FirstSpace) : Placement(Trays, Bench, BenchKind, FirstSpace)
{
    protected override LedgerKind OwnKind => LedgerKind.Placed;
}
