using Nursery.Domain.Benches;

namespace Nursery.Domain.Ledger;

/// <summary>Trays (numbers in their set) stand on a bench from now on; <paramref name="FirstSpace"/> is null when nobody said where.</summary>
public abstract record Placement(SpaceRun Trays, Id<Bench> Bench, BenchKind BenchKind, int? FirstSpace) : EntryValue;
