using NodaTime;
using Nursery.Domain.Batches;
using Nursery.Domain.Benches;
using Nursery.Domain.Crops;
using Nursery.Domain.Ledger;
using Nursery.Domain.SeedLots;
using Nursery.Domain.Sites;
using Nursery.Domain.Tasks;

namespace Nursery.Domain.Tests.Tasks.Histories;

/// <summary>One batch through a random history: the product's own fold, closings, rules and comparing, over task rows kept in memory
/// as the database keeps them.</summary>
internal sealed class RandomHistory
{
    private static readonly Id<Site> SiteId = new(new Guid("0195a000-0000-7000-8000-000000000005"));
    private static readonly Id<SeedLot> Lot = new(new Guid("0195a000-0000-7000-8000-000000000006"));
    private static readonly Id<Bench> Bench = new(new Guid("0195a000-0000-7000-8000-000000000007"));

    public const int CellsPerTray = 128;
    public const decimal Latitude = 52;
    public const decimal AirC = 16;

    private readonly Batch _batch;
    private readonly TaskSubject _subject;
    private readonly Dictionary<(TaskKind Kind, int Occurrence), RoundTask> _rows = [];
    private readonly List<LedgerEntry> _marks = [];
    private int _ids;

    public RandomHistory(Instant start, string zone, bool thins)
    {
        (Now, Zone) = (start, DateTimeZoneProviders.Tzdb[zone]);
        Crop = new Crop
        {
            Id = new Id<Crop>(Guid.CreateVersion7()),
            Code = "PE",
            Name = "Pepper",
            Species = "Capsicum annuum",
            GerminationMinC = 18,
            GerminationOptimumC = 29,
            GerminationMaxC = 35,
            DaysToEmergence = 4,
            WeeksToTransplant = 3,
            DepthMm = 6,
            Light = LightNeed.Indifferent,
            CellsPerTray = 72,
            SeedsPerCell = 2,
            MoveOffFraction = 0.5m,
            ThinDaysAfterEmergence = thins ? 3 : null,
            FeedFromDays = 2,
            FeedEveryDays = 3,
            SpaceDays = 5,
            HardeningDays = 4,
            GrowOnBand = Band.Warm,
            Sources = "invented for tests",
        };
        _batch = new Batch
        {
            Id = new Id<Batch>(Guid.CreateVersion7()),
            SiteId = SiteId,
            Code = "PE-001-A",
            VarietyId = new Id<Variety>(Guid.CreateVersion7()),
            Cells = 72,
            SeedsPerCell = 2,
            SowOn = Today,
            ReadyOn = Today.PlusDays(21),
        };
        _subject = TaskSubject.Of(_batch);
        Sync();
    }

    public Instant Now { get; private set; }
    public DateTimeZone Zone { get; private set; }
    public Crop Crop { get; }
    public List<LedgerEntry> Entries { get; } = [];
    public IReadOnlyList<LedgerEntry> Marks => _marks;
    public LocalDate Today => Now.InZone(Zone).Date;
    public LocalDate SowOn => _batch.SowOn;
    public LocalDate ReadyOn => _batch.ReadyOn;
    public IReadOnlyCollection<RoundTask> Rows => _rows.Values;

    public void Live(Happening happening)
    {
        Now += Duration.FromHours(happening.HoursLater);
        var at = Now - Duration.FromHours(happening.HoursLate);
        switch (happening.Deed)
        {
            case Deed.Sow: Tell(at, new Sown(Lot, 144, 72, 2)); break;
            case Deed.Do: Tell(at, new Done(happening.Kind, OpenOccurrence(happening.Kind))); break;
            case Deed.NotUp: Tell(at, new NotYet(TaskKind.EmergenceCheck, OpenOccurrence(TaskKind.EmergenceCheck), "not up yet")); break;
            case Deed.NotReady: Tell(at, new NotYet(TaskKind.ReadyCheck, OpenOccurrence(TaskKind.ReadyCheck), "not ready yet")); break;
            case Deed.CountFew: Tell(at, new Count(CountWhat.Seedlings, 10, 72, false, 2)); break;
            case Deed.CountMany: Tell(at, new Count(CountWhat.Seedlings, 100, 72, false, 2)); break;
            case Deed.MoveToBench: Tell(at, new Moved(new SpaceRun(1, 1), Bench, BenchKind.Growing, null)); break;
            case Deed.MoveToHarden: Tell(at, new Moved(new SpaceRun(1, 1), Bench, BenchKind.Hardening, null)); break;
            case Deed.Discard: Tell(at, new Discarded("short stand")); break;
            case Deed.Undo when Entries.Count > 0: Tell(at, new Undo(Entries[happening.Number % Entries.Count].Id)); break;
            case Deed.ChangePlan:
                _batch.SowOn = _batch.SowOn.PlusDays((happening.Number % 15) - 7);
                _batch.ReadyOn = _batch.SowOn.PlusDays(14 + (happening.Number % 20));
                break;
            case Deed.ChangeZone: Zone = DateTimeZoneProviders.Tzdb[Zones.All[happening.Number % Zones.All.Length]]; break;
            case Deed.SeeSurface: _marks.Add(Entry(at, new Surface((SurfaceState)(happening.Number % 3)))); break;
        }

        Sync();
    }

    /// <summary>What the hourly job does when nothing happened.</summary>
    public void Sync()
    {
        _batch.State = BatchStory.Fold(Entries);
        foreach (var raised in TaskClosings.Apply(TaskClosings.Of(Entries), _subject, _rows.Values, NewId))
        {
            _rows.Add((raised.Kind, raised.Occurrence), raised);
        }

        var changes = TaskChanges.Between(
            [
                .. _rows.Values.Where(row => row.State == TaskState.Open)
                    .Select(row => new OpenTask(row.Id, row.SubjectId, row.Kind, row.Occurrence, row.DueOn, row.Why)),
            ],
            [.. TaskRules.Wanted(Facts()).Select(task => new WantedTask(_subject, task))]);
        foreach (var row in _rows.Values.Where(row => changes.Withdrawn.Contains(row.Id)))
        {
            row.State = TaskState.Withdrawn;
        }

        foreach (var want in changes.Raised)
        {
            Raise(want.Task);
        }
    }

    /// <summary>As INSERT … ON CONFLICT DO UPDATE … WHERE not done.</summary>
    private void Raise(DueTask task)
    {
        if (!_rows.TryGetValue((task.Kind, task.Occurrence), out var row))
        {
            _rows.Add((task.Kind, task.Occurrence), RoundTask.About(_subject, NewId(), task.Kind, task.Occurrence, task.DueOn, task.Why));
        }
        else if (row.State != TaskState.Done)
        {
            (row.DueOn, row.Why, row.State) = (task.DueOn, task.Why, TaskState.Open);
        }
    }

    private BatchFacts Facts()
    {
        var done = _rows.Values.Where(row => row.State == TaskState.Done).ToLookup(row => row.Kind, row => row.Occurrence);
        var next = done.ToDictionary(kind => kind.Key, kind => Enumerable.Range(1, 1000).First(number => !kind.Contains(number)));
        var marks = LedgerOrder.Effective(_marks);
        return new BatchFacts(
            _batch, Crop, 1, 0.8m, null, next, Today,
            Surface: marks.Count == 0 ? null : new SurfaceMark(((Surface)marks[^1].Value).State, marks[^1].Day),
            Care: new CareGround(
                CellsPerTray, Latitude, AirC: AirC,
                Waterings:
                [
                    .. _rows.Values.Where(row => row.State == TaskState.Done && row.Kind is TaskKind.Water or TaskKind.FirstWatering && row.DoneOn is not null)
                        .Select(row => row.DoneOn!.Value),
                ],
                Marks: [.. marks.Select(mark => new SurfaceMark(((Surface)mark.Value).State, mark.Day))]));
    }

    private int OpenOccurrence(TaskKind kind) =>
        _rows.Values.Where(row => row.Kind == kind && row.State == TaskState.Open).Select(row => row.Occurrence).FirstOrDefault(1);

    private void Tell(Instant at, EntryValue value) => Entries.Add(Entry(at, value));

    private LedgerEntry Entry(Instant at, EntryValue value) => new()
    {
        Id = new Id<LedgerEntry>(Numbered()),
        SiteId = SiteId,
        UndoOf = value is Undo undo ? undo.Entry : null,
        WhoId = Guid.Empty,
        WhoName = "Ada",
        HappenedAt = at,
        RecordedAt = Now,
        Day = at.InZone(Zone).Date,
        Kind = value.Kind,
        Value = value,
    };

    private Id<RoundTask> NewId() => new(Numbered());

    private Guid Numbered() => new(++_ids, 0, 0x7000, [0x80, 0, 0, 0, 0, 0, 0, 0]);
}
