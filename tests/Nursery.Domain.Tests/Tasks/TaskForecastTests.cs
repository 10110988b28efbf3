using Nursery.Domain.Batches;
using Nursery.Domain.Tasks;
using Xunit;
using static Nursery.Domain.Tests.Tasks.RuleFacts;

namespace Nursery.Domain.Tests.Tasks;

public sealed class TaskForecastTests
{
    [Fact]
    public void Of_PlannedBatch_RunsTheRulesAheadAsIfAllWereDone() => Assert.Equal(
        [
            (0, TaskKind.Sow), (0, TaskKind.FirstWatering), (2, TaskKind.Water), (4, TaskKind.Water), (6, TaskKind.Water),
            (6, TaskKind.EmergenceCheck), (8, TaskKind.Water), (8, TaskKind.EmergenceCheck), (10, TaskKind.Water), (10, TaskKind.EmergenceCheck),
            (10, TaskKind.MoveOffHeat), (11, TaskKind.Water), (12, TaskKind.Water), (13, TaskKind.Water), (13, TaskKind.Feed),
        ],
        TaskForecast.Of(Of(BatchState.Planned), 14).Select(task => ((task.Day - Day0).Days, task.Kind)));

    [Fact]
    public void Of_Late_IsDoneToday() => Assert.Equal(
        (Day(9), TaskKind.FirstWatering), TaskForecast.Of(Of(Sown(), today: 9), 1).First());

    [Fact]
    public void Of_Bench_IsLookedAtEveryDayAndHouseScoutedEveryWeek()
    {
        Assert.Equal(14, TaskForecast.Of(Place(TaskKind.Look, 0, 19, 20), 14).Count());
        Assert.Equal([Day(22), Day(29)], TaskForecast.Of(Place(TaskKind.Scout, 0, 15, 20), 14).Select(task => task.Day));
        Assert.Empty(TaskForecast.Of(Place(TaskKind.Look, null, 19, 20), 14));
    }

    [Fact]
    public void Of_NoDays_IsRefused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => TaskForecast.Of(Of(Sown()), 0).ToList());
}
