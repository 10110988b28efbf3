using NodaTime;
using Nursery.Domain.Sites;
using Xunit;

namespace Nursery.Domain.Tests.Sites;

public sealed class WorkWeekTests
{
    /// <summary>28 December 2026 is the Monday of ISO week 53.</summary>
    [Theory]
    [InlineData(28, 3 * 400)]
    [InlineData(29, 2 * 300)]
    [InlineData(31, 0)]
    public void AvailableOn_Day_IsHandsTimesMinutes(int day, int minutes) => Assert.Equal(
        minutes, new WorkWeek([3, 2, 1, 0, 1, 1, 1], [400, 300, 200, 100, 60, 60, 60]).AvailableOn(new LocalDate(2026, 12, day)));

    [Fact]
    public void Assumed_SaysSo()
    {
        Assert.True(WorkWeek.Assumed.IsAssumed);
        Assert.False(new WorkWeek(WorkWeek.Assumed.Hands, WorkWeek.Assumed.Minutes).IsAssumed);
        Assert.Equal(120, WorkWeek.Assumed.AvailableOn(new LocalDate(2026, 3, 1)));
    }
}
