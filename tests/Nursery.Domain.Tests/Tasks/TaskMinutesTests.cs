using Nursery.Domain.Tasks;
using Xunit;

namespace Nursery.Domain.Tests.Tasks;

public sealed class TaskMinutesTests
{
    /// <summary>From the seconds a tray of the Rutgers bedding plant budget: fill 22–49, sow and set 81–162, carry 14–40, water 14, carry out
    /// 25–67; the middles are 35.5, 121.5, 27, 14 and 46. The others are from memory.</summary>
    [Theory]
    [InlineData(TaskKind.Sow, 10, 184.0)]
    [InlineData(TaskKind.FirstWatering, 10, 28.0)]
    [InlineData(TaskKind.Water, 10, 14.0)]
    [InlineData(TaskKind.Feed, 10, 14.0)]
    [InlineData(TaskKind.MoveOffHeat, 10, 27.0)]
    [InlineData(TaskKind.Spacing, 10, 27.0)]
    [InlineData(TaskKind.HardenOff, 10, 27.0)]
    [InlineData(TaskKind.HandOver, 10, 46.0)]
    [InlineData(TaskKind.EmergenceCheck, 10, 20.0)]
    [InlineData(TaskKind.ReadyCheck, 10, 20.0)]
    [InlineData(TaskKind.ClearBench, 10, 20.0)]
    [InlineData(TaskKind.Scout, 10, 10.0)]
    [InlineData(TaskKind.Look, 10, 3.0)]
    public void Of_Trays_IsTheirSecondsInMinutes(TaskKind kind, int trays, double secondsATray) =>
        Assert.Equal((decimal)secondsATray * trays / 60, TaskMinutes.Of(kind, trays, 720), 10);

    [Fact]
    public void Of_Thinning_GoesByHalfOfTheCells() => Assert.Equal(720 * 3m / 2 / 60, TaskMinutes.Of(TaskKind.Thin, 10, 720));

    [Fact]
    public void Of_EveryKind_HasMinutes() =>
        Assert.All(Enum.GetValues<TaskKind>(), kind => Assert.True(TaskMinutes.Of(kind, 1, 72) > 0));

    [Fact]
    public void Of_NegativeTrays_IsRefused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => TaskMinutes.Of(TaskKind.Water, -1, 0));
}
