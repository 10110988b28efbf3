using Nursery.Planning.Plans;
using Nursery.Planning.Problems;
using Nursery.Planning.Scoring;
using Xunit;

namespace Nursery.Planning.Tests.Scoring;

/// <summary>A test a cost; the figures are worked out by hand from the price list.</summary>
public sealed class ScorerTests
{
    private static readonly DateOnly Start = new(2026, 1, 5);
    private static readonly Problem Problem = new(
        Start, 42, [new("house"), new("far")],
        [new("heat", "house", BenchUse.Heat, 30, 60, 99), new("warm", "house", BenchUse.Warm, 50, 60, 99), new("other", "far", BenchUse.Warm, 50, 60, 99)],
        [new("a", "heat", 1, 20, [70, 75], BeforeF: 70), new("b", "heat", 21, 10, [70])], 50, [new("crop", 65, 75, 80, [new(70, 0.25), new(75, 0.34)], 9)],
        [new("one", "crop", 10, Start.AddDays(30), Now: new(Start.AddDays(10), "a", "warm"))]);

    private static readonly Scorer Scorer = new(Problem);

    [Theory]
    [InlineData(30, 0, 0)]
    [InlineData(28, 2 * 2 * 10, 0)]
    [InlineData(33, 0, 3 * 2 * 10)]
    [InlineData(36, 0, (6 * 2 * 10) + (2 * 50 * 10))]
    public void EarlyReadyAndLateReady(int ready, long early, long late)
    {
        Assert.Equal(early, Scorer.EarlyReady(Placed(ready: ready)));
        Assert.Equal(late, Scorer.LateReady(Placed(ready: ready)));
    }

    [Fact]
    public void DegreeOff_ByDegreesDaysAndTrays() => Assert.Equal(5 * 4 * 10, Scorer.DegreeOff(Placed()));

    [Fact]
    public void HeatedBenchDay_BySpacesDaysAndDegreesAbove55_RoundedDownAWeek()
    {
        // 20 spaces × 7 days × 15 °F ÷ 10 = 210 and × 20 = 280 a week.
        Assert.Equal(210 + (2 * 280), Scorer.HeatedBenchDay(Path((1, null), (1, 70), (2, 75), (2, null))));
    }

    [Fact]
    public void SetpointChange_EachWeekThatDiffers_OffAndTheWeekBeforeTheSeasonToo()
    {
        Assert.Equal(3 * 1000, Scorer.SetpointChange(Path((1, 70), (2, 75), (1, null), (2, 70))));
        Assert.Equal(1 * 1000, Scorer.SetpointChange(Path((6, null))));
        Assert.Equal(0, Scorer.SetpointChange(Path((6, 70))));
    }

    [Fact]
    public void SplitBatch_EachZoneAndBenchBeyondOne()
    {
        Assert.Equal(0, Scorer.SplitBatch(Placed()));
        Assert.Equal(2 * 500, Scorer.SplitBatch(Placed(zones: ["a", "b"], benches: ["warm", "other"])));
        Assert.Equal(0, Scorer.SplitBatch(Placed(benches: ["warm", "warm"])));
    }

    [Fact]
    public void SplitRun_EachRunBeyondOneInAPlace() => Assert.Equal(500, Scorer.SplitRun(Placed(benches: ["warm", "warm", "other"])));

    [Fact]
    public void Unplaced_ByTrays() => Assert.Equal(10 * 3000, Scorer.Unplaced(new Unplaced("one", 10, WhyNot.NoSpaceFound, "")));

    [Fact]
    public void ChangedSowDay_WhenItIsAnother()
    {
        Assert.Equal(0, Scorer.ChangedSowDay(Placed(sow: 10)));
        Assert.Equal(500, Scorer.ChangedSowDay(Placed(sow: 11)));
    }

    [Fact]
    public void ExtraMove_ForZoneAndForBench()
    {
        Assert.Equal(0, Scorer.ExtraMove(Placed()));
        Assert.Equal(300, Scorer.ExtraMove(Placed(zones: ["b"])));
        Assert.Equal(600, Scorer.ExtraMove(Placed(zones: ["b"], benches: ["other"])));
    }

    [Fact]
    public void OtherHouse_ByTheTraysThatGoThere()
    {
        Assert.Equal(0, Scorer.OtherHouse(Placed()));
        Assert.Equal(10 * 5, Scorer.OtherHouse(Placed(benches: ["other"])));
        Assert.Equal(5 * 5, Scorer.OtherHouse(Placed(benches: ["warm", "other"])));
    }

    [Fact]
    public void Score_PositionedCostHoldsTheRunsAndNotTheChanges()
    {
        var score = Scorer.Of(new Plan([Placed(sow: 11, benches: ["warm", "warm"])], [Path((6, 70))], [], Score.None));

        Assert.Equal(200 + (6 * 210), score.Cost);
        Assert.Equal(score.Cost + 500, score.PositionedCost);
        Assert.Equal(500, score.ByConstraint["ChangedSowDay"]);
    }

    private static PlannedBatch Placed(int sow = 10, int ready = 30, string[]? zones = null, string[]? benches = null) => new(
        "one", Start.AddDays(sow), Start.AddDays(sow + 4), Start.AddDays(18), Start.AddDays(23), Start.AddDays(ready), 70, BenchUse.Warm,
        [.. (zones ?? ["a"]).Select(zone => new HeatStay(zone, 1, 10))], [.. (benches ?? ["warm"]).Select(bench => new BenchStay(bench, 1, 10, 1, 10))]);

    private static ZonePath Path(params (int Weeks, double? SetpointF)[] spans)
    {
        var week = 0;
        return new ZonePath("a", [.. spans.Select(span => new SetpointSpan(Start.AddDays(7 * week), Start.AddDays(7 * (week += span.Weeks)), span.SetpointF))]);
    }
}
