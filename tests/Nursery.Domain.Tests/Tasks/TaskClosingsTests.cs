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
        var closings = TaskClosings.Of([At(0, Sown()), At(5, Done(TaskKind.Water), who: "Bo"), At(3, Done(TaskKind.Water), who: "Ada")]);

        Assert.Equal((Day(0), "Ada"), closings[(TaskKind.Water, 1)]);
    }

    [Fact]
    public void Of_FirstUndone_LeavesTheSecond()
    {
        var first = Guid.CreateVersion7();

        var closings = TaskClosings.Of([At(0, Sown()), At(3, Done(TaskKind.Water), first, who: "Ada"), At(5, Done(TaskKind.Water), who: "Bo"), At(6, Undo(first))]);

        Assert.Equal("Bo", closings[(TaskKind.Water, 1)].Who);
    }

    [Fact]
    public void Of_Sowing_ClosesTheSowTaskAndAloneDoes()
    {
        Assert.Equal([(TaskKind.Sow, 1)], TaskClosings.Of([At(0, Sown())]).Keys);
        Assert.Empty(TaskClosings.Of([At(0, Done(TaskKind.Sow))]));
    }

    [Theory]
    [InlineData(BenchKind.Germination, false, false)]
    [InlineData(BenchKind.Growing, true, false)]
    [InlineData(BenchKind.Hardening, true, true)]
    public void Of_Moved_ClosesWhatTheBenchIsFor(BenchKind kind, bool offHeat, bool hardening)
    {
        var closings = TaskClosings.Of([At(0, Sown()), At(1, Moved(kind))]);

        Assert.Equal(
            (offHeat, hardening), (closings.ContainsKey((TaskKind.MoveOffHeat, 1)), closings.ContainsKey((TaskKind.HardenOff, 1))));
    }

    [Fact]
    public void Of_DoneOnADayBeforeTheSowingThatStands_ClosesNothing()
    {
        var first = Guid.CreateVersion7();

        var closings = TaskClosings.Of(
            [At(0, Sown(), first), At(2, Done(TaskKind.FirstWatering)), At(3, Undo(first)), At(50, Sown()), At(51, Done(TaskKind.Water))]);

        Assert.Equal([(TaskKind.Sow, 1), (TaskKind.Water, 1)], closings.Keys);
    }

    [Fact]
    public void OfPlace_DoneAndTakenBack_ClosesWhatStands()
    {
        var first = Guid.CreateVersion7();

        var closings = TaskClosings.OfPlace([At(0, Done(TaskKind.Look), first), At(1, Undo(first)), At(24, Done(TaskKind.Look, 2))]);

        Assert.Equal([(TaskKind.Look, 2)], closings.Keys);
    }
}
