using System.Globalization;
using NodaTime;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.Benches;
using Nursery.Domain.Houses;
using Nursery.Domain.Ledger;
using Nursery.Domain.People;
using Nursery.Domain.SeedLots;
using Nursery.Domain.Sites;
using Nursery.Domain.Tasks;
using Nursery.Domain.TraySets;

namespace Nursery.Application.Rounds;

/// <summary>Who, when and where of a reported entry; what it says is added once it is understood.</summary>
internal sealed record EntryDraft(
    Site Site, Actor Actor, Id<LedgerEntry> Id, Instant HappenedAt, Instant RecordedAt, string? Sent, LocalDate? On = null)
{
    public LocalDate Day => On ?? Site.DayOf(HappenedAt);

    public LedgerEntry Entry(
        EntryValue value,
        Id<Batch>? batch = null,
        Id<TraySet>? traySet = null,
        Id<Bench>? bench = null,
        Id<SeedLot>? lot = null) => Make(Id, null, Sent, value, batch, traySet, bench, null, lot);

    /// <summary>An entry about a task of a batch, a bench or a house.</summary>
    public LedgerEntry About(TaskSubject subject, EntryValue value, Id<TraySet>? traySet = null) =>
        Make(Id, null, Sent, value, subject.Batch, traySet, subject.Bench, subject.House, null);

    /// <summary>An entry that follows from this one; taking this one back takes that one back too.</summary>
    public LedgerEntry Consequence(
        EntryValue value,
        Id<Batch>? batch = null,
        Id<TraySet>? traySet = null,
        Id<Bench>? bench = null,
        Id<SeedLot>? lot = null) =>
        Make(
            new Id<LedgerEntry>(DerivedId.From(Id.Value, $"{value.Kind} {traySet} {bench} {PartOf(value)}")),
            Id, null, value, batch, traySet, bench, null, lot);

    /// <summary>One entry may put parts of a tray set in several places.</summary>
    private static string PartOf(EntryValue value) => value is Placement placement
        ? string.Create(CultureInfo.InvariantCulture, $"{placement.Trays.First} {placement.FirstSpace}")
        : "";

    private LedgerEntry Make(
        Id<LedgerEntry> id,
        Id<LedgerEntry>? causedBy,
        string? sent,
        EntryValue value,
        Id<Batch>? batch,
        Id<TraySet>? traySet,
        Id<Bench>? bench,
        Id<House>? house,
        Id<SeedLot>? lot) => new()
        {
            Id = id,
            SiteId = Site.Id,
            BatchId = batch,
            TraySetId = traySet,
            BenchId = bench,
            HouseId = house,
            LotId = lot,
            CausedBy = causedBy,
            UndoOf = value is Undo undo ? undo.Entry : null,
            WhoId = Actor.Id,
            WhoName = Actor.Name,
            Device = Actor.Device,
            HappenedAt = HappenedAt,
            RecordedAt = RecordedAt,
            Day = Day,
            Kind = value.Kind,
            Value = value,
            Sent = sent,
        };
}
