using Nursery.Domain.Tasks;
using Xunit;
using static Nursery.Domain.Tests.Tasks.RuleFacts;

namespace Nursery.Domain.Tests.Tasks.Rules;

public sealed class PlaceRulesTests
{
    [Theory]
    [InlineData(0, null, 1)]
    [InlineData(0, 4, 5)]
    [InlineData(20, 4, 21)]
    public void Look_BenchInUse_IsEveryDay(int since, int? doneOn, int due)
    {
        var look = Assert.Single(TaskRules.Wanted(Place(TaskKind.Look, since, doneOn, 20, next: 4)));

        Assert.Equal((TaskKind.Look, 4, Day(due)), (look.Kind, look.Occurrence, look.DueOn));
        Assert.Contains("3 batches in 12 trays", look.Why, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0, null, 7)]
    [InlineData(0, 10, 17)]
    [InlineData(40, 10, 40)]
    public void Scout_HouseInUse_IsEveryWeek(int since, int? doneOn, int due)
    {
        var scout = Assert.Single(TaskRules.Wanted(Place(TaskKind.Scout, since, doneOn, 40)));

        Assert.Equal((TaskKind.Scout, Day(due)), (scout.Kind, scout.DueOn));
        Assert.Contains("every 7 days", scout.Why, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(TaskKind.Look)]
    [InlineData(TaskKind.Scout)]
    public void NothingThere_IsNotAskedFor(TaskKind kind) => Assert.Empty(TaskRules.Wanted(Place(kind, null, 3, 10)));
}
