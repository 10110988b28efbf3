using Nursery.Planning.Problems;
using Xunit;

namespace Nursery.Planning.Tests.Search;

/// <summary>Trays stay in the house they came up in where it costs nothing.</summary>
public sealed class NearBenchesTests
{
    private static readonly DateOnly Start = new(2026, 1, 5);

    [Theory]
    [InlineData(1, "b-warm")]
    [InlineData(2, "a-warm")]
    public void Plan_BenchInTheHouse_IsTakenWhenItHoldsTheTrays(int fills, string bench)
    {
        var problem = new Problem(
            Start, 56, [new("a"), new("b")],
            [
                new("a-warm", "a", BenchUse.Warm, 20, 60, 99), new("b-warm", "b", BenchUse.Warm, 10 / fills, 60, 99),
                new("b-heat", "b", BenchUse.Heat, 10, 60, 99),
            ],
            [new("zone", "b-heat", 1, 10, [75])], 20, [new("crop", 65, 75, 80, [new(75, 0.25)], 21)], [new("one", "crop", 10, Start.AddDays(40))]);

        var plan = Planner.Plan(problem, new Effort(200)).Plan;

        Assert.Equal([bench], plan.Batches.Single().Benches.Select(stay => stay.Bench));
        Assert.Equal(bench == "a-warm" ? 50 : 0, plan.Score.ByConstraint["OtherHouse"]);
    }

    [Fact]
    public void Plan_TodaysBenchInAnotherHouse_IsKept()
    {
        var problem = new Problem(
            Start, 56, [new("a"), new("b")],
            [
                new("a-warm", "a", BenchUse.Warm, 20, 60, 99), new("b-warm", "b", BenchUse.Warm, 20, 60, 99),
                new("b-heat", "b", BenchUse.Heat, 10, 60, 99),
            ],
            [new("zone", "b-heat", 1, 10, [75])], 20, [new("crop", 65, 75, 80, [new(75, 0.25)], 21)],
            [new("one", "crop", 10, Start.AddDays(40), Now: new PlaceNow(Start.AddDays(8), "zone", "a-warm"))]);

        Assert.Equal("a-warm", Planner.Plan(problem, new Effort(200)).Plan.Batches.Single().Benches.Single().Bench);
    }
}
