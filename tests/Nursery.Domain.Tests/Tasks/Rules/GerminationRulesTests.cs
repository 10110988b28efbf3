using Nursery.Domain.Batches;
using Nursery.Domain.Tasks;
using Xunit;
using static Nursery.Domain.Tests.Tasks.RuleFacts;

namespace Nursery.Domain.Tests.Tasks.Rules;

public sealed class GerminationRulesTests
{
    [Theory]
    [InlineData(null, 6)]
    [InlineData(7, 9)]
    [InlineData(1, 6)]
    public void EmergenceCheck_Looked_IsAgainInTwoDaysButNotBeforeTheFirst(int? lookedOn, int due)
    {
        var check = Find(Of(Sown() with { LookedOn = lookedOn is { } day ? Day(day) : null }), TaskKind.EmergenceCheck)!;

        Assert.Equal(Day(due), check.DueOn);
        Assert.Contains("pepper comes up in about 8 days; none counted yet", check.Why, StringComparison.Ordinal);
    }

    /// <summary>Half of the plants of a lot of 80 % are 40 % of the 288 seeds: 115.2.</summary>
    [Theory]
    [InlineData(115, 10, "Only 40 % of seeds up counted on 9 March; leave at 40 %, 50 % of the 80 % expected; the crop's usual day is 12 March")]
    [InlineData(58, 10, "Only 20 % of seeds up")]
    [InlineData(116, 7, "40 % of seeds up counted on 9 March, 50 % of the 80 % expected is enough: take 2 trays off the heat")]
    public void MoveOffHeat_Counted_GoesByTheShareOfTheExpected(int up, int due, string why)
    {
        var state = Sown() with { CountedSeeds = 288, CountedUp = up, CountedOn = Day(7), LookedOn = Day(7) };

        var move = Find(Of(state), TaskKind.MoveOffHeat)!;

        Assert.Equal(Day(due), move.DueOn);
        Assert.Contains(why, move.Why, StringComparison.Ordinal);
    }

    [Fact]
    public void MoveOffHeat_NothingCounted_IsTheUsualDayAndSaysSo()
    {
        var move = Find(Of(Sown()), TaskKind.MoveOffHeat)!;

        Assert.Equal(
            new DueTask(TaskKind.MoveOffHeat, 1, Day(10), "10 days after sowing on 2 March, the crop's usual day, for nothing is counted; leave once 50 % of the plants are up"),
            move);
    }

    [Fact]
    public void MoveOffHeat_TooFewUpPastTheUsualDay_WaitsForAnotherLook()
    {
        var state = Sown() with { CountedSeeds = 288, CountedUp = 20, CountedOn = Day(11), LookedOn = Day(13) };

        Assert.Equal(Day(14), Find(Of(state, today: 13), TaskKind.MoveOffHeat)!.DueOn);
    }

    [Fact]
    public void OffHeat_StopsLookingAndMoving()
    {
        var state = Sown() with { OffHeatOn = Day(9), Stage = BatchStage.GrowingOn };

        Assert.Null(Find(Of(state), TaskKind.EmergenceCheck));
        Assert.Null(Find(Of(state), TaskKind.MoveOffHeat));
    }
}
