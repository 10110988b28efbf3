using NodaTime;
using Nursery.Domain.Batches;
using Nursery.Domain.Benches;
using Nursery.Domain.Houses;
using Nursery.Domain.SeedLots;
using Nursery.Domain.Sites;
using Nursery.Domain.TraySets;

namespace Nursery.Domain.Ledger;

/// <summary>One line of the append-only ledger: who, when, what.</summary>
public sealed class LedgerEntry
{
    /// <summary>Made by the client (UUIDv7), so sending twice writes once.</summary>
    public required Id<LedgerEntry> Id { get; init; }
    public required Id<Site> SiteId { get; init; }
    public Id<Batch>? BatchId { get; init; }
    public Id<TraySet>? TraySetId { get; init; }
    public Id<Bench>? BenchId { get; init; }
    public Id<House>? HouseId { get; init; }
    public Id<SeedLot>? LotId { get; init; }

    /// <summary>The entry this one follows from; undoing that one undoes this one.</summary>
    public Id<LedgerEntry>? CausedBy { get; init; }

    /// <summary>The entry an undo takes back; that one may not have arrived yet.</summary>
    public Id<LedgerEntry>? UndoOf { get; init; }
    public required Guid WhoId { get; init; }
    public required string WhoName { get; init; }
    public string? Device { get; init; }
    public required Instant HappenedAt { get; init; }

    /// <summary>How far the device's clock was ahead of ours, milliseconds; 0 when not measured.</summary>
    public int DeviceSkewMs { get; init; }
    public required Instant RecordedAt { get; init; }

    /// <summary>The site-local day it counts for.</summary>
    public required LocalDate Day { get; init; }
    public required LedgerKind Kind { get; init; }
    public required EntryValue Value { get; init; }

    /// <summary>What the client sent, canonical JSON: the same id with other content is refused.</summary>
    public string? Sent { get; init; }

    /// <summary>When it happened by our clock; entries fold in this order.</summary>
    public Instant EffectiveAt => HappenedAt - Duration.FromMilliseconds(DeviceSkewMs);
}
