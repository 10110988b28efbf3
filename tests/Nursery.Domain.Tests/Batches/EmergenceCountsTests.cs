using Nursery.Domain.Batches;
using Nursery.Domain.Ledger;
using Nursery.Domain.Tasks;
using Xunit;
using static Nursery.Domain.Tests.Ledger.Entries;

namespace Nursery.Domain.Tests.Batches;

public sealed class EmergenceCountsTests
{
    /// <summary>Seedlings are counted as they are; a sample keeps its own seeds; who looked and saw nothing counted 0.</summary>
    [Fact]
    public void Of_CountsOfSeveralDays_AreByDay() => Assert.Equal(
        [new(Day(3), null, 0), new(Day(5), 288, 40), new(Day(8), 40, 30)],
        EmergenceCounts.Of(
        [
            At(24 * 8, new Count(CountWhat.Seedlings, 30, 20, true, 2)), At(24 * 5, new Count(CountWhat.Seedlings, 40, 144, false, 2)),
            At(0, Sown()), At(24 * 3, new NotYet(TaskKind.EmergenceCheck, 1, "not up yet")), At(24 * 4, new NotYet(TaskKind.Water, 1, "came up damp")),
            At(24 * 4, new NotYet(TaskKind.EmergenceCheck, 1, "no time")),
        ]));

    [Fact]
    public void Of_SeveralOnADay_TheWidestThenTheHighestSpeaks() => Assert.Equal(
        [new(Day(5), 288, 50)],
        EmergenceCounts.Of(
        [
            At(121, new Count(CountWhat.Seedlings, 39, 20, true, 2)), At(122, new Count(CountWhat.Seedlings, 50, 144, false, 2)),
            At(123, new Count(CountWhat.Seedlings, 48, 144, false, 2)), At(124, new NotYet(TaskKind.EmergenceCheck, 1, "not up yet")),
        ]));

    [Fact]
    public void Of_AfterThinningOrUndone_SaysNothing()
    {
        var wrong = Guid.CreateVersion7();
        var thinned = Guid.CreateVersion7();
        LedgerEntry[] entries =
        [
            At(100, new Count(CountWhat.Seedlings, 280, 144, false, 2), wrong), At(101, Undo(wrong)),
            At(120, new Count(CountWhat.Seedlings, 200, 144, false, 2)), At(130, Done(TaskKind.Thin), thinned),
            At(300, new Count(CountWhat.Seedlings, 144, 144, false, 2)),
        ];

        Assert.Equal([new(Day(5), 288, 200)], EmergenceCounts.Of(entries));
        Assert.Equal(2, EmergenceCounts.Of([.. entries, At(131, Undo(thinned))]).Count);
    }
}
