using Nursery.Planning.Changes;
using Nursery.Planning.Plans;
using Nursery.Planning.Problems;
using Nursery.Planning.Tests.Instances;
using Nursery.Planning.Validation;
using Xunit;

namespace Nursery.Planning.Tests.Changes;

public sealed class ReplanTests
{
    private static readonly Problem Season = InventedNursery.Make("S", 1, 0.90);
    private static readonly Plan Today = Planner.Plan(Season, new Effort(40_000)).Plan;
    private static readonly DateOnly Day = Season.DateOf(85);
    private static readonly Effort AtOnce = new(0);

    [Fact]
    public void Around_NothingHappened_ChangesNothing()
    {
        var replanned = Replan.Around(Season, Today, Day, [], AtOnce);

        Assert.Empty(replanned.Difference.Changed);
        Assert.Empty(replanned.Homeless);
        Assert.DoesNotContain(replanned.Running, running => running.Why != null);
        Assert.Equal(Today.Batches.Count(placed => placed.SowOn >= Day), replanned.NotStarted);
        AssertRight(replanned);
    }

    [Fact]
    public void Around_ABatchSlips_ItStaysOnHeatLongerAndFewChange()
    {
        var slipping = Today.Batches.Where(placed => placed.SowOn < Day && placed.MoveOffOn > Day).MaxBy(placed => placed.Heat[0].Spaces)!;

        var replanned = Replan.Around(Season, Today, Day, [new BatchSlips(slipping.Id, 5)], new Effort(500));

        var running = Assert.Single(replanned.Running, running => running.Placed.Id == slipping.Id);
        Assert.Equal(slipping.MoveOffOn.AddDays(5), running.Placed.MoveOffOn);
        Assert.Equal("5 days later than planned", running.Why);
        Assert.True(replanned.Difference.Changed.Count <= replanned.NotStarted / 2, $"{replanned.Difference.Changed.Count} of {replanned.NotStarted} change");
        AssertRight(replanned);
    }

    [Fact]
    public void Around_ABenchIsOut_ItsTraysStandElsewhereOrAreNamed()
    {
        var bench = Today.Batches.Where(placed => placed.MoveOffOn <= Day && placed.HardenOn > Day).GroupBy(placed => placed.Benches[0].Bench)
            .MaxBy(group => group.Count())!.Key;
        var days = new OutOfUse(Day, Day.AddDays(21));

        var replanned = Replan.Around(Season, Today, Day, [new BenchOutOfUse(bench, days)], AtOnce);

        Assert.DoesNotContain(replanned.Running, running => running.Placed.HardenOn > Day && running.Placed.MoveOffOn < days.To
            && running.Placed.Benches.Any(stay => stay.Bench == bench));
        Assert.DoesNotContain(replanned.Planned.Plan.Batches, placed => placed.MoveOffOn < days.To && placed.Benches.Any(stay => stay.Bench == bench));
        var moved = replanned.Running.Where(running => running.Why != null).ToList();
        Assert.NotEmpty(moved);
        foreach (var running in moved.Where(running => running.Placed.HardenOn > Day))
        {
            var was = Today.Batches.Single(placed => placed.Id == running.Placed.Id);
            var missing = replanned.Homeless.Where(homeless => homeless.Batch == was.Id && homeless.Where == "bench").Sum(homeless => homeless.Spaces);
            Assert.Equal(was.Benches.Sum(stay => stay.SpacesAfter), running.Placed.Benches.Sum(stay => stay.SpacesAfter) + missing);
        }

        AssertRight(replanned);
    }

    [Fact]
    public void Around_AZoneIsBroken_NothingIsSownIntoIt()
    {
        var zone = Season.Zones[0].Id;

        var replanned = Replan.Around(Season, Today, Day, [new ZoneBroken(zone, new OutOfUse(Day, Day.AddDays(30)))], AtOnce);

        Assert.DoesNotContain(replanned.Planned.Plan.Batches, placed => placed.SowOn < Day.AddDays(30) && placed.Heat.Any(stay => stay.Zone == zone));
        AssertRight(replanned);
    }

    [Fact]
    public void Around_OrdersComeAndGo_TheOthersStay()
    {
        var gone = Today.Batches.First(placed => placed.SowOn > Day).Id;
        var added = new Batch("new", "lettuce", 6, Season.DateOf(160));

        var replanned = Replan.Around(Season, Today, Day, [new BatchCancelled(gone), new BatchAdded(added)], AtOnce);

        Assert.DoesNotContain(replanned.Planned.Plan.Batches, placed => placed.Id == gone);
        Assert.Contains(replanned.Planned.Plan.Batches, placed => placed.Id == "new");
        Assert.Empty(replanned.Difference.Changed);
        AssertRight(replanned);
    }

    [Fact]
    public void Around_WithASearch_PaysForEveryChange()
    {
        var slipping = Today.Batches.First(placed => placed.SowOn < Day && placed.MoveOffOn > Day).Id;

        var atOnce = Replan.Around(Season, Today, Day, [new BatchSlips(slipping, 7)], AtOnce);
        var searched = Replan.Around(Season, Today, Day, [new BatchSlips(slipping, 7)], new Effort(2_000));

        Assert.True(Whole(searched) <= Whole(atOnce), $"{Whole(atOnce)} became {Whole(searched)}");

        static long Whole(Replanned replanned) =>
            replanned.Planned.Plan.Score.PositionedCost + replanned.Planned.Plan.Score.ByConstraint["ChangedSowDay"] + replanned.Planned.Plan.Score.ByConstraint["ExtraMove"];
    }

    [Fact]
    public void Around_NothingIsSownYet_EverythingIsPutBackFromTheDayOn()
    {
        // What should have been sown by then is sown later; all that can stay stays.
        var replanned = Replan.Around(Season, Today, Day, [], AtOnce, running: []);

        Assert.Empty(replanned.Running);
        Assert.Equal(Today.Batches.Count, replanned.NotStarted);
        Assert.All(replanned.Planned.Plan.Batches, placed => Assert.True(placed.SowOn >= Day));
        AssertRight(replanned);
    }

    [Fact]
    public void WhatIf_HeatRented_IsAZoneOfItsOwn()
    {
        var rented = new SpacesRented(new Bench("more", "tunnel", BenchUse.Heat, 40, 60, 200), new OutOfUse(Season.Start, Season.End), [75, 80]);

        var (planned, _) = WhatIf.Try(Season, Today, [rented, .. Season.Zones.Select(zone => new ZoneBroken(zone.Id, new OutOfUse(Season.Start, Season.End)))], new Effort(200));

        Assert.NotEmpty(planned.Plan.Batches);
        Assert.All(planned.Plan.Batches, placed => Assert.All(placed.Heat, stay => Assert.Equal("more", stay.Zone)));
        Assert.Empty(PlanValidator.Check(planned.Checked.Usable, planned.Plan));
    }

    [Fact]
    public void Around_APlanWithHalfOfABatch_PlacesAllOfIt()
    {
        var half = Today.Batches.First(placed => placed.SowOn > Day && placed.Heat[0].Spaces > 1);
        var today = Today with { Batches = [.. Today.Batches.Select(placed => placed == half ? placed with { Heat = [placed.Heat[0] with { Spaces = 1 }] } : placed)] };

        AssertRight(Replan.Around(Season, today, Day, [], AtOnce));
    }

    [Fact]
    public void Around_UnknownBench_IsRefused() => Assert.Equal(
        "benches: \"roof\" is not there; one of the problem's is allowed.",
        Assert.Throws<ProblemUnreadable>(() => Replan.Around(Season, Today, Day, [new BenchOutOfUse("roof", new OutOfUse(Day, Day.AddDays(1)))], AtOnce)).Message);

    [Fact]
    public void WhatIf_LeavesTheSeasonAsItIs()
    {
        var before = PlanningJson.Write(Season);

        var (planned, difference) = WhatIf.Try(
            Season, Today, [new SpacesRented(new Bench("more", "tunnel", BenchUse.Warm, 40, 60, 200), new OutOfUse(Season.DateOf(60), Season.DateOf(120)))], new Effort(2_000));

        Assert.Equal(before, PlanningJson.Write(Season));
        Assert.Empty(PlanValidator.Check(planned.Checked.Usable, planned.Plan));
        Assert.Equal(planned.Plan.Score.Cost - Today.Score.Cost, difference.Cost.Where(pair => pair.Key is not ("SplitRun" or "ChangedSowDay" or "ExtraMove" or "OtherHouse")).Sum(pair => pair.Value));
    }

    private static void AssertRight(Replanned replanned) =>
        Assert.Empty(PlanValidator.Check(replanned.Planned.Checked.Usable, replanned.Planned.Plan));
}
