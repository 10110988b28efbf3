using Xunit;

namespace Nursery.Agronomy.Tests;

public sealed class HalfTimeTests
{
    /// <summary>By hand: of 100 seeds 20 are up on day 5 and 60 on day 9, 60 finally. Half is 30; from 20 to 60 in 4 days it is
    /// 10 a day, so 30 are up one day after day 5.</summary>
    [Fact]
    public void Of_HalfBetweenTwoCounts_IsOnTheLineBetweenThem() =>
        Assert.Equal(new HalfTime(6, null), HalfTime.Of([(5, 0.2), (9, 0.6)], 0.6));

    /// <summary>By hand: nothing on day 3, 40 % on day 7 which is half of 80 %.</summary>
    [Fact]
    public void Of_HalfExactlyAtACount_IsItsDay() =>
        Assert.Equal(7, HalfTime.Of([(3, 0), (7, 0.4), (12, 0.8)], 0.8)!.Days!.Value, 1e-12);

    [Fact]
    public void Of_FirstCountFindsHalfAlready_TellsOnlyTheDayItWasBy()
    {
        Assert.Equal(new HalfTime(null, 9), HalfTime.Of([(9, 0.9)], 0.9));
        Assert.Equal(new HalfTime(null, 9), HalfTime.Of([(9, 0.5), (12, 0.9)], 0.9));
        Assert.Equal(new HalfTime(null, 9), HalfTime.Of([(9, 0.5), (12, 1)], 1));
    }

    [Fact]
    public void Of_NothingEmergedOrHalfNeverCounted_IsUnknown()
    {
        Assert.Null(HalfTime.Of([(5, 0), (9, 0)], 0));
        Assert.Null(HalfTime.Of([], 0.5));
        Assert.Null(HalfTime.Of([(5, 0.1)], 0.6));
    }

    /// <summary>By hand: of 5, 6 and 9 the middle is 6; of 5 and 6 it is 5.5. One that tells only 'by day 2' is left out.</summary>
    [Fact]
    public void Median_OfTheKnown_LeavesOthersOut()
    {
        Assert.Equal(6, HalfTime.Median([new(9, null), new(null, 2), new(5, null), null, new(6, null)]));
        Assert.Equal(5.5, HalfTime.Median([new(6, null), new(5, null)]));
        Assert.Null(HalfTime.Median([new(null, 2), null]));
    }
}
