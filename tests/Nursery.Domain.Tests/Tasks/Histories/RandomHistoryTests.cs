using CsCheck;
using NodaTime;
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
