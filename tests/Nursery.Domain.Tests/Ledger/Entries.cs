using NodaTime;
using Nursery.Domain;
using Nursery.Domain.Benches;
using Nursery.Domain.Ledger;
using Nursery.Domain.SeedLots;
using Nursery.Domain.Sites;
using Nursery.Domain.Tasks;

namespace Nursery.Domain.Tests.Ledger;

/// <summary>Makes ledger entries for folds.</summary>
internal static class Entries
{
    public static readonly LocalDate Day0 = new(2026, 3, 2);
    public static readonly Id<SeedLot> Lot = new(new Guid("0195a000-0000-7000-8000-000000000001"));
    public static readonly Id<Bench> BenchId = new(new Guid("0195a000-0000-7000-8000-000000000002"));

    private static readonly Id<Site> SiteId = new(new Guid("0195a000-0000-7000-8000-000000000003"));
    private static readonly Instant Start = Instant.FromUtc(2026, 3, 2, 15, 0);

    /// <summary>An entry some hours after the start.</summary>
    public static LedgerEntry At(
        double hours, EntryValue value, Guid? id = null, Guid? causedBy = null, string who = "Ada", int skewMs = 0)
    {
        var at = Start + Duration.FromHours(hours);
        return new LedgerEntry
        {
            Id = new Id<LedgerEntry>(id ?? Guid.CreateVersion7()),
            SiteId = SiteId,
            CausedBy = causedBy is { } cause ? new Id<LedgerEntry>(cause) : null,
            UndoOf = value is Undo undo ? undo.Entry : null,
            WhoId = Guid.Empty,
            WhoName = who,
            HappenedAt = at,
            DeviceSkewMs = skewMs,
            RecordedAt = at,
            Day = Day0.PlusDays((int)Math.Floor(hours / 24)),
            Kind = value.Kind,
            Value = value,
        };
    }

    public static Sown Sown(int cells = 144, int seedsPerCell = 2) => new(Lot, cells * seedsPerCell, cells, seedsPerCell);

    public static Count Up(int value, int cells = 144, int seedsPerCell = 2) => new(CountWhat.CellsUp, value, cells, cells < 144, seedsPerCell);

    public static Done Done(TaskKind kind, int occurrence = 1) => new(kind, occurrence);

    public static Undo Undo(Guid id) => new(new Id<LedgerEntry>(id));

    public static Moved Moved(BenchKind kind, int first = 1, int trays = 2, int? space = null) =>
        new(new SpaceRun(first, trays), BenchId, kind, space);

    public static LocalDate Day(int days) => Day0.PlusDays(days);
}
