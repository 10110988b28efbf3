using CsCheck;
using NodaTime;
using NodaTime.Calendars;
using Nursery.Domain.Tasks;
using Xunit;

namespace Nursery.Domain.Tests.Tasks.Histories;

/// <summary>Random histories against the oracle: no task missing, none doubled, none that came back from the dead. They start around a
/// leap day, a year with a week 53 and the days clocks change, and the site may change its zone on the way.</summary>
public sealed class RandomHistoryTests
{
    private const int Histories = 10_000;

    private static readonly Instant[] Starts =
    [
        Instant.FromUtc(2028, 2, 26, 23, 30), Instant.FromUtc(2024, 2, 28, 6, 0), Instant.FromUtc(2026, 12, 24, 12, 0), Instant.FromUtc(2020, 12, 29, 3, 0),
        Instant.FromUtc(2026, 3, 6, 7, 0), Instant.FromUtc(2026, 3, 27, 0, 30), Instant.FromUtc(2026, 4, 3, 15, 0), Instant.FromUtc(2026, 4, 23, 21, 0),
        Instant.FromUtc(2026, 9, 4, 3, 30), Instant.FromUtc(2026, 9, 25, 13, 0), Instant.FromUtc(2026, 10, 23, 1, 0), Instant.FromUtc(2026, 10, 30, 5, 0),
    ];

    private static readonly Gen<Instant> AnyStart = Gen.Int[0, Starts.Length - 1].Select(number => Starts[number]);

    private static readonly Gen<string> AnyZone = Gen.Int[0, Zones.All.Length - 1].Select(number => Zones.All[number]);

    private static readonly Gen<Happening> AnyHappening = Gen.Select(
        Gen.Frequency(
            (3, Gen.Const(Deed.Sow)),
            (12, Gen.Const(Deed.Do)),
            (2, Gen.Enum<Deed>()),
            (2, Gen.Const(Deed.Undo)),
            (1, Gen.Const(Deed.ChangePlan)),
            (3, Gen.Const(Deed.SeeSurface)),
            (1, Gen.Const(Deed.CountFew))),
        Gen.Int[0, 60],
        Gen.Frequency((3, Gen.Const(0)), (2, Gen.Int[0, 90])),
        Gen.Enum<TaskKind>().Where(kind => kind is not TaskKind.Look and not TaskKind.Scout),
        Gen.Int[0, 1000],
        (deed, later, late, kind, number) => new Happening(deed, later, late, kind, number));

    [Fact]
    public void Tasks_AnyHistory_AreWhatTheOracleSays() =>
        Gen.Select(AnyStart, AnyZone, Gen.Bool, AnyHappening.Array[1, 30]).Sample(
            (start, zone, thins, happenings) =>
            {
                var history = new RandomHistory(start, zone, thins);
                Check(history);
                foreach (var happening in happenings)
                {
                    history.Live(happening);
                    Check(history);
                }
            },
            iter: Histories);

    [Fact]
    public void Tasks_SameEntriesInAnyOrder_AreTheSame() =>
        Gen.Select(AnyStart, AnyZone, AnyHappening.Array[1, 20]).Sample(
            (start, zone, happenings) =>
            {
                var history = new RandomHistory(start, zone, true);
                Array.ForEach(happenings, history.Live);
                var open = Open(history);
                history.Entries.Reverse();
                history.Sync();
                Assert.Equal(open, Open(history));
            },
            iter: Histories / 10);

    /// <summary>What the histories claim to pass they pass: each step is up to 60 hours, so a fortnight from a start is well within one.</summary>
    [Fact]
    public void Starts_ReachEveryChangeOfClocksALeapDayAndWeek53()
    {
        var reached = Starts.Select(start => new Interval(start, start + Duration.FromDays(14))).ToList();
        foreach (var zone in Zones.All.Select(name => DateTimeZoneProviders.Tzdb[name]))
        {
            var changes = zone.GetZoneIntervals(new Interval(Starts.Min(), Starts.Max() + Duration.FromDays(14)))
                .Where(span => span.HasStart && reached.Exists(some => some.Contains(span.Start))).Select(span => span.Savings > Offset.Zero).Distinct();
            Assert.Equal(2, changes.Count());
        }

        var days = reached.SelectMany(some => Enumerable.Range(0, 14).Select(day => (some.Start + Duration.FromDays(day)).InUtc().Date)).ToList();
        Assert.Contains(days, day => day is { Month: 2, Day: 29 });
        Assert.Contains(days, day => WeekYearRules.Iso.GetWeekOfWeekYear(day) == 53);
    }

    private static void Check(RandomHistory history)
    {
        var oracle = new Oracle(history);
        var done = history.Rows.Where(row => row.State == TaskState.Done).Select(row => (row.Kind, row.Occurrence)).Order();
        Assert.Equal(oracle.Done().Order(), done);
        Assert.Equal(
            oracle.Open().Select(task => (task.Key.Item1, task.Key.Item2, task.Value)).Order(),
            Open(history));
        Assert.Distinct(history.Rows.Where(row => row.State == TaskState.Open).Select(row => row.Kind));
        Assert.Distinct(history.Rows.Select(row => (row.Kind, row.Occurrence)));
    }

    private static List<(TaskKind, int, int)> Open(RandomHistory history) =>
    [
        .. history.Rows.Where(row => row.State == TaskState.Open)
            .Select(row => (row.Kind, row.Occurrence, row.DueOn.ToDateOnly().DayNumber)).Order(),
    ];
}
