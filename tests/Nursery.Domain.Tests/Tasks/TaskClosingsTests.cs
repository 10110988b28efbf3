using Nursery.Domain.Benches;
using Nursery.Domain.Tasks;
using Nursery.Domain.Tests.Ledger;
using Xunit;
using static Nursery.Domain.Tests.Ledger.Entries;

namespace Nursery.Domain.Tests.Tasks;

public sealed class TaskClosingsTests
{
    [Fact]
    public void Of_TwoPeopleOneTask_KeepsTheFirst()
    {
        var closings = TaskClosings.Of([At(5, Done(TaskKind.Water), who: "Bo"), At(3, Done(TaskKind.Water), who: "Ada")]);

        Assert.Equal((Day(0), "Ada"), closings[(TaskKind.Water, 1)]);
    }

    [Fact]
    public void Of_FirstUndone_LeavesTheSecond()
    {
        var first = Guid.CreateVersion7();

        var closings = TaskClosings.Of([At(3, Done(TaskKind.Water), first, who: "Ada"), At(5, Done(TaskKind.Water), who: "Bo"), At(6, Undo(first))]);

        Assert.Equal("Bo", closings[(TaskKind.Water, 1)].Who);
    }

    [Fact]
    public void Of_Sowing_ClosesTheSowTaskAndAloneDoes()
    {
        Assert.Equal([(TaskKind.Sow, 1)], TaskClosings.Of([At(0, Sown())]).Keys);
        Assert.Empty(TaskClosings.Of([At(0, Done(TaskKind.Sow))]));
    }

    [Theory]
    [InlineData(BenchKind.Germination, false)]
    [InlineData(BenchKind.Growing, true)]
    [InlineData(BenchKind.Hardening, true)]
    public void Of_Moved_ClosesMoveOffHeatAwayFromHeat(BenchKind kind, bool closes) =>
        Assert.Equal(closes, TaskClosings.Of([At(0, Moved(kind))]).ContainsKey((TaskKind.MoveOffHeat, 1)));
}
