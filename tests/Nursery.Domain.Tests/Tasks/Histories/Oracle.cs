using System.Globalization;
using NodaTime;
using NodaTime.Extensions;
using Nursery.Agronomy;
using Nursery.Agronomy.Air;
using Nursery.Agronomy.Light;
using Nursery.Agronomy.Water;
using Nursery.Domain.Benches;
using Nursery.Domain.Ledger;
using Nursery.Domain.Tasks;

namespace Nursery.Domain.Tests.Tasks.Histories;

/// <summary>What should be open, said again in another way: from the bare entries by the last day of each thing, with day numbers for
/// dates and the runtime's own time zones for days. Nothing of the fold, the rules or the closings is used; what a tray
/// loses in a day is the formula's, which has its own tests.</summary>
internal sealed class Oracle
{
    private readonly RandomHistory _history;
    private readonly List<(DateTimeOffset At, Guid Id, int Day, EntryValue Value)> _valid;
    private readonly int? _sown;

    public Oracle(RandomHistory history)
    {
        _history = history;
        var takenBack = history.Entries.Where(entry => entry.UndoOf is not null).Select(entry => entry.UndoOf!.Value.Value).ToHashSet();
        var all = history.Entries
            .Where(entry => entry.UndoOf is null && !takenBack.Contains(entry.Id.Value))
            .Select(entry => (At: entry.HappenedAt.ToDateTimeOffset(), Id: entry.Id.Value, Day: Number(entry.Day), entry.Value))
            .ToList();
        all.Sort((left, right) => left.At != right.At ? left.At.CompareTo(right.At) : left.Id.CompareTo(right.Id));
        _sown = all.Where(entry => entry.Value is Sown).Select(entry => (int?)entry.Day).FirstOrDefault();
        IsGivenUp = all.Find(entry => entry.Value is Discarded) is { Value: not null } gone ? gone.Day : null;
        _valid = _sown is null ? [] : all.FindAll(entry => entry.Day >= _sown);
    }

    private int? IsGivenUp { get; }

    private int Today => Number(TimeZoneInfo.ConvertTime(_history.Now.ToDateTimeOffset(), TimeZoneInfo.FindSystemTimeZoneById(_history.Zone.Id)));

    /// <summary>Tasks that are done, each once.</summary>
    public HashSet<(TaskKind, int)> Done()
    {
        var done = _valid.Where(entry => entry.Value is Done { Task: not TaskKind.Sow })
            .Select(entry => (((Done)entry.Value).Task, ((Done)entry.Value).Occurrence)).ToHashSet();
        if (_sown is not null)
        {
            done.Add((TaskKind.Sow, 1));
        }

        if (_valid.Exists(entry => entry.Value is Moved))
        {
            done.Add((TaskKind.MoveOffHeat, 1));
        }

        if (_valid.Exists(entry => entry.Value is Moved { BenchKind: BenchKind.Hardening }))
        {
            done.Add((TaskKind.HardenOff, 1));
        }

        return done;
    }

    /// <summary>Open tasks with the day number they are due.</summary>
    public Dictionary<(TaskKind, int), int> Open()
    {
        var due = new Dictionary<TaskKind, int?>();
        if (IsGivenUp is null && First(TaskKind.HandOver) is null)
        {
            WhileItLives(due);
        }
        else if (_sown is not null && First(TaskKind.ClearBench) is null)
        {
            var gone = IsGivenUp ?? First(TaskKind.HandOver);
            due[TaskKind.ClearBench] = Today <= gone + 14 ? gone : null;
        }

        var done = Done();
        return due.Where(task => task.Value is { } day && day <= Today + 30).ToDictionary(
            task => (task.Key, Occurrence(task.Key, done)), task => task.Value!.Value);
    }

    private void WhileItLives(Dictionary<TaskKind, int?> due)
    {
        if (_sown is not { } sown)
        {
            due[TaskKind.Sow] = Number(_history.SowOn);
            return;
        }

        var watered = Latest(entry => entry.Value is Done { Task: TaskKind.Water or TaskKind.FirstWatering });
        var offHeat = Min(FirstDay(entry => entry.Value is Moved), Min(First(TaskKind.MoveOffHeat), First(TaskKind.HardenOff)));
        var hardens = FirstDay(entry => entry.Value is Moved { BenchKind: BenchKind.Hardening } or Done { Task: TaskKind.HardenOff });
        var ready = First(TaskKind.ReadyCheck);
        var up = Min(FirstDay(entry => entry.Value is Count), First(TaskKind.EmergenceCheck)) ?? offHeat;
        var readyBy = Number(_history.ReadyOn);
        due[TaskKind.FirstWatering] = watered is null ? sown : null;
        due[TaskKind.Water] = watered is { } last ? Water(last, offHeat, up) : null;
        due[TaskKind.EmergenceCheck] = offHeat is null ? Math.Max(sown + 3, (Looked() ?? 0) + 2) : null;
        due[TaskKind.MoveOffHeat] = offHeat is null ? Move(sown) : null;
        due[TaskKind.Thin] = _history.Crop.ThinDaysAfterEmergence is { } thin && First(TaskKind.Thin) is null ? up + thin : null;
        due[TaskKind.Feed] = hardens is null && ready is null
            ? Max(up + 2, Latest(entry => entry.Value is Done { Task: TaskKind.Feed }) + 3)
            : null;
        due[TaskKind.Feed] = up is null ? null : due[TaskKind.Feed];
        due[TaskKind.Spacing] = First(TaskKind.Spacing) is null && ready is null ? up + 5 : null;
        due[TaskKind.HardenOff] = hardens is null && ready is null ? Math.Max(readyBy - 4, sown + 1) : null;
        var unready = Latest(entry => entry.Value is NotYet { Task: TaskKind.ReadyCheck });
        due[TaskKind.ReadyCheck] = ready is null ? Max(Math.Max(readyBy - 2, sown + 1), unready + 2) : null;
        due[TaskKind.HandOver] = readyBy;
    }

    private int Water(int last, int? offHeat, int? up)
    {
        var marks = _history.Marks.OrderBy(mark => mark.HappenedAt.ToUnixTimeTicks()).ThenBy(mark => mark.Id.Value)
            .Select(mark => (Day: Number(mark.Day), ((Surface)mark.Value).State)).ToList();
        var factor = 1d;
        foreach (var (day, state) in marks)
        {
            var before = WateringDays().Where(watering => watering < day).ToList();
            if (before.Count == 0)
            {
                continue;
            }

            // As published on the page of water: found dry early it dries faster, found wet late slower, within a half and twice.
            var part = Math.Min(100, (day - before.Max()) / DaysToDry(before.Max(), offHeat, up, factor));
            factor *= state switch
            {
                SurfaceState.Dry when part < 1 => Math.Pow(Math.Max(0.1, part), -0.3),
                SurfaceState.Wet when part > 0.5 => Math.Pow(2 * Math.Min(4, part), -0.3),
                _ => 1,
            };
            factor = Math.Min(2, Math.Max(0.5, factor));
        }

        var most = offHeat is null || offHeat > last ? 3 : 2;
        var reckoned = last + Math.Min(most, Math.Max(1, (int)Math.Floor(DaysToDry(last, offHeat, up, factor) + 0.5)));
        return marks.Count == 0 || marks[^1].Day <= last
            ? reckoned
            : marks[^1].State switch
            {
                SurfaceState.Dry => Math.Min(reckoned, marks[^1].Day),
                SurfaceState.Wet => Math.Max(reckoned, marks[^1].Day + 1),
                _ => reckoned,
            };
    }

    /// <summary>Each watering once, the first to report it.</summary>
    private IEnumerable<int> WateringDays() => _valid.Where(entry => entry.Value is Done { Task: TaskKind.Water or TaskKind.FirstWatering })
        .GroupBy(entry => (((Done)entry.Value).Task, ((Done)entry.Value).Occurrence)).Select(task => task.First().Day);

    /// <summary>Covered pepper in 128 cells at 16 °C and 65 %: the top until the first true leaf, then the plug; in half the light on heat.</summary>
    private double DaysToDry(int watered, int? offHeat, int? up, double factor)
    {
        var heat = offHeat is null || watered < offHeat;
        var age = watered - up ?? -1;
        var leaf = _history.Crop.ThinDaysAfterEmergence ?? 10;
        var stage = age < 0 ? SurfaceStage.Vermiculite
            : age < leaf ? SurfaceStage.Cotyledons
            : age < leaf + 14 ? SurfaceStage.HalfCanopy : SurfaceStage.ClosedCanopy;
        var sun = 0.5 * new DaySun(new Latitude((double)RandomHistory.Latitude), DateOnly.FromDayNumber(watered).DayOfYear).ExtraterrestrialMj;
        var air = new Temperature(RandomHistory.AirC);
        return TrayWater.Of(
            RandomHistory.CellsPerTray, age >= leaf, stage, AirState.Of(air, new Fraction(0.65), new Length(0), AirFormula.Fao56), air,
            sun * 0.55 * (heat ? 0.5 : 1), new BenchWater(HasBottomHeat: heat)).Days.Median / factor;
    }

    /// <summary>100 seedlings of 144 seeds are more than half of the 80 % expected, 10 are fewer. Counts after thinning say nothing.</summary>
    private int Move(int sown)
    {
        var thinned = _valid.FindIndex(entry => entry.Value is Done { Task: TaskKind.Thin });
        var counts = _valid.Where((entry, at) => entry.Value is Count && (thinned < 0 || at < thinned)).ToList();
        var usual = sown + 6;
        if (counts.Find(entry => ((Count)entry.Value).Value == 100) is { Value: not null } enough)
        {
            return enough.Day;
        }

        return counts.Count == 0 ? usual : Math.Max(usual, Looked()!.Value + 1);
    }

    private int? Looked() => Latest(
        entry => entry.Value is Count or Done { Task: TaskKind.EmergenceCheck } or NotYet { Task: TaskKind.EmergenceCheck });

    private static int Occurrence(TaskKind kind, HashSet<(TaskKind, int)> done)
    {
        var number = 1;
        while (done.Contains((kind, number)))
        {
            number++;
        }

        return number;
    }

    private int? First(TaskKind kind) => FirstDay(entry => entry.Value is Done done && done.Task == kind);

    private int? FirstDay(Predicate<(DateTimeOffset At, Guid Id, int Day, EntryValue Value)> says) =>
        _valid.FindIndex(says) is var at && at < 0 ? null : _valid[at].Day;

    private int? Latest(Predicate<(DateTimeOffset At, Guid Id, int Day, EntryValue Value)> says) =>
        _valid.FindLastIndex(says) is var at && at < 0 ? null : _valid[at].Day;

    private static int? Min(int? left, int? right) => left is null || right < left ? right ?? left : left;

    private static int? Max(int? left, int? right) => left is null || right > left ? right ?? left : left;

    private static int Number(LocalDate day) =>
        DateOnly.ParseExact(day.ToString("uuuu-MM-dd", CultureInfo.InvariantCulture), "yyyy-MM-dd", CultureInfo.InvariantCulture).DayNumber;

    private static int Number(DateTimeOffset at) => DateOnly.FromDateTime(at.DateTime).DayNumber;
}
