using Nursery.Domain.Batches;
using Nursery.Domain.Tasks;
using Xunit;
using static Nursery.Domain.Tests.Tasks.RuleFacts;

namespace Nursery.Domain.Tests.Tasks;

/// <summary>What the rules want together. The day counts are common practice, no source; the tables say what the product does with them.</summary>
public sealed class TaskRulesTests
{
    [Fact]
    public void Wanted_Planned_IsSowingOnItsDay() => Assert.Equal(
        new DueTask(TaskKind.Sow, 1, Day0, "2 trays, 2 seeds a cell; wanted 1 May, 60 days after sowing"),
        Assert.Single(TaskRules.Wanted(Of(BatchState.Planned, wantedOn: 60))));

    [Fact]
    public void Wanted_Sown_WatersAtOnceLooksAndPlansTheMove() => Assert.Equal(
        //// 8 days to emergence: first look at 70 % of that, 6 days; planned on heat 10 days; the rest lies beyond the 30.
        [(TaskKind.FirstWatering, Day(0)), (TaskKind.EmergenceCheck, Day(6)), (TaskKind.MoveOffHeat, Day(10))],
        TaskRules.Wanted(Of(Sown())).Select(task => (task.Kind, task.DueOn)));

    [Fact]
    public void Wanted_UpAndOnTheWay_HasTheWholeSeasonByItsDays()
    {
        var state = Up(8) with { OffHeatOn = Day(9), Stage = BatchStage.GrowingOn };

        // Today is day 30: up on day 8, thinned 14 later, fed 7 later, set apart 28 later, hardened 10 days before day 56.
        Assert.Equal(
            [
                (TaskKind.Water, Day(9)), (TaskKind.Thin, Day(22)), (TaskKind.Feed, Day(15)), (TaskKind.Spacing, Day(36)),
                (TaskKind.HardenOff, Day(46)), (TaskKind.ReadyCheck, Day(54)), (TaskKind.HandOver, Day(56)),
            ],
            TaskRules.Wanted(Of(state, today: 30)).Select(task => (task.Kind, task.DueOn)));
    }

    [Theory]
    [InlineData(BatchStage.HandedOver)]
    [InlineData(BatchStage.Discarded)]
    public void Wanted_BatchIsGone_AsksForNothingButClearing(BatchStage stage) => Assert.Equal(
        [TaskKind.ClearBench],
        TaskRules.Wanted(Of(Up(8) with { Stage = stage, HandedOverOn = Day(50), DiscardedOn = Day(50) }, today: 50)).Select(task => task.Kind));

    [Theory]
    [InlineData(29, false)]
    [InlineData(30, true)]
    [InlineData(90, true)]
    public void Wanted_Horizon_IsThirtyDays(int today, bool raised) =>
        Assert.Equal(raised, Find(Of(Sown(), wantedOn: 60, today: today), TaskKind.HandOver) is not null);

    [Fact]
    public void Wanted_AnyState_HasAtMostOneOfAKind() => Assert.All(
        new[] { BatchState.Planned, Sown(), Up(3) with { LookedOn = Day0 }, Up(3) with { FedOn = Day(20), OffHeatOn = Day(4) } },
        state => Assert.Distinct(TaskRules.Wanted(Of(state, today: 40)).Select(task => task.Kind)));

    [Fact]
    public void Wanted_EveryKind_IsAskedForSomewhere()
    {
        var gone = Up(8) with { Stage = BatchStage.HandedOver, HandedOverOn = Day(56) };
        var kinds = TaskRules.Wanted(Of(BatchState.Planned)).Concat(TaskRules.Wanted(Of(Sown())))
            .Concat(TaskRules.Wanted(Of(Up(8), today: 30))).Concat(TaskRules.Wanted(Of(gone, today: 56)))
            .Concat(TaskRules.Wanted(Place(TaskKind.Look, 0, null, 5))).Concat(TaskRules.Wanted(Place(TaskKind.Scout, 0, null, 5)))
            .Select(task => task.Kind).Distinct().Order();

        Assert.Equal(Enum.GetValues<TaskKind>(), kinds);
    }
}
