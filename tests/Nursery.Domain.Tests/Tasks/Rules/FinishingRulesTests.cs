using Nursery.Domain.Batches;
using Nursery.Domain.Crops;
using Nursery.Domain.Tasks;
using Xunit;
using static Nursery.Domain.Tests.Tasks.RuleFacts;

namespace Nursery.Domain.Tests.Tasks.Rules;

public sealed class FinishingRulesTests
{
    /// <summary>Planned ready on day 56, 10 days of hardening off.</summary>
    [Theory]
    [InlineData(null, 46)]
    [InlineData(60, 46)]
    [InlineData(50, 40)]
    [InlineData(5, 1)]
    public void HardenOff_EndsWhenTheyMustBeReady(int? wantedOn, int due)
    {
        var task = Find(Of(Up(8), wantedOn, today: 30), TaskKind.HardenOff)!;

        Assert.Equal(Day(due), task.DueOn);
        Assert.Contains("10 days of hardening off", task.Why, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(BatchStage.HardeningOff)]
    [InlineData(BatchStage.Ready)]
    public void HardenOff_Begun_IsOver(BatchStage stage) =>
        Assert.Null(Find(Of(Up(8) with { Stage = stage }, today: 40), TaskKind.HardenOff));

    [Fact]
    public void HardenOff_CropWithoutHardening_IsNotAskedFor() =>
        Assert.Null(Find(Of(Up(8), today: 40, crop: (Crop crop) => crop.HardeningDays = 0), TaskKind.HardenOff));

    [Theory]
    [InlineData(null, null, 54)]
    [InlineData(50, null, 48)]
    [InlineData(null, 55, 57)]
    [InlineData(null, 40, 54)]
    public void ReadyCheck_LooksTwoDaysBeforeAndAgain(int? wantedOn, int? lookedOn, int due)
    {
        var state = Up(8) with { ReadyLookedOn = lookedOn is { } day ? Day(day) : null };

        var task = Find(Of(state, wantedOn, today: 50), TaskKind.ReadyCheck)!;

        Assert.Equal(Day(due), task.DueOn);
        Assert.Equal(lookedOn is not null, task.Why.Contains("not ready on", StringComparison.Ordinal));
    }

    [Fact]
    public void ReadyCheck_Ready_IsOver() =>
        Assert.Null(Find(Of(Up(8) with { Stage = BatchStage.Ready }, today: 54), TaskKind.ReadyCheck));

    [Fact]
    public void HandOver_Order_NamesTheDay()
    {
        var wanted = Find(Of(Sown(), wantedOn: 60, today: 60), TaskKind.HandOver)!;
        Assert.Equal((Day(60), "Planned ready 27 April; an order wants them that day"), (wanted.DueOn, wanted.Why));
        Assert.Equal(Day(56), Find(Of(Sown(), today: 60), TaskKind.HandOver)!.DueOn);
        Assert.Null(Find(Of(BatchState.Planned, today: 60), TaskKind.HandOver));
    }

    [Theory]
    [InlineData(BatchStage.HandedOver, 56, true, "Handed over 27 April")]
    [InlineData(BatchStage.Discarded, 56, true, "Given up 27 April")]
    [InlineData(BatchStage.HandedOver, 70, true, "2 trays")]
    [InlineData(BatchStage.HandedOver, 71, false, "")]
    public void ClearBench_Gone_IsThatDayForTwoWeeks(BatchStage stage, int today, bool asked, string why)
    {
        var task = Find(Of(Up(8) with { Stage = stage, HandedOverOn = Day(56), DiscardedOn = Day(56) }, today: today), TaskKind.ClearBench);

        Assert.Equal(asked ? Day(56) : null, task?.DueOn);
        Assert.Contains(why, task?.Why ?? "", StringComparison.Ordinal);
    }

    [Fact]
    public void ClearBench_ClearedOrNeverSown_IsNotAskedFor()
    {
        var gone = Up(8) with { Stage = BatchStage.HandedOver, HandedOverOn = Day(56), ClearedOn = Day(57) };
        Assert.Null(Find(Of(gone, today: 57), TaskKind.ClearBench));
        Assert.Null(Find(Of(new BatchState { Stage = BatchStage.Discarded, DiscardedOn = Day(3) }, today: 3), TaskKind.ClearBench));
    }
}
