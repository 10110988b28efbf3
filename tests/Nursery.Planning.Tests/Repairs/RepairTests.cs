using Nursery.Planning.Changes;
using Nursery.Planning.Problems;
using Nursery.Planning.Repairs;
using Nursery.Planning.Validation;
using Xunit;

namespace Nursery.Planning.Tests.Repairs;

/// <summary>Seasons in which one way out helps and no other, made by hand. The crop is 4 days on heat at 75 °F and 14 on a warm bench, then
/// 7 in hardening; a batch due on 16 Feb is sown on 22 Jan and moves off heat on 26 Jan.</summary>
public sealed class RepairTests
{
    private static readonly DateOnly Start = new(2026, 1, 5);
    private static readonly Crop Basil = new("basil", 70, 75, 80, [new(75, 0.25)], 14);

    /// <summary>As much of everything as one batch of 6 takes, wherever a test takes nothing away.</summary>
    private static readonly Problem Season = new(
        Start, 77, [new("h")],
        [new("heat", "h", BenchUse.Heat, 12, 60, 99), new("w", "h", BenchUse.Warm, 12, 60, 99), new("c", "h", BenchUse.Cool, 12, 60, 99)],
        [new("a", "heat", 1, 12, [75])], 12, [Basil], [Batch("b1"), Batch("b2")]);

    [Fact]
    public void Later_BenchFreeAfterTheWindow_NamesTheBatchAndItsDays()
    {
        var problem = Season with
        {
            Benches = [Season.Benches[0], Season.Benches[1] with { Spaces = 6 }, Season.Benches[2]],
            Batches = [Batch("b1") with { Latest = Due, LastLate = Due }, Batch("b2") with { LastLate = Due.AddDays(9) }],
        };

        var repair = Assert.Single(Confirmed(problem), repair => repair.Changes[0] is HandOverLate);

        Assert.Equal([new HandOverLate("b2", 5)], repair.Changes);
        Assert.Equal("Hand over b2 5 days later than allowed now: all 6 trays get their place, and it costs 31.68 more.", Without(repair.Sentence, "31.68"));
    }

    [Fact]
    public void Earlier_BenchFreeBeforeTheWindow_NamesTheSowingDay()
    {
        // The bench is out of use from 3 Feb on: hardening must begin then, 3 days too soon; a day more saves a week of heat.
        var problem = Season with
        {
            Benches = [Season.Benches[0], Season.Benches[1] with { OutOfUse = [new(Start.AddDays(29), Start.AddDays(77))] }, Season.Benches[2]],
            Batches = [Batch("b1")],
        };

        var repairs = Confirmed(problem);

        var repair = Assert.Single(repairs, repair => repair.Changes[0] is SowEarlier);
        Assert.Equal([new SowEarlier("b1", 4)], repair.Changes);
        Assert.StartsWith("Sow b1 on 15 Jan, ready 4 days sooner than allowed now: all 6 trays get their place, and it costs ", repair.Sentence, StringComparison.Ordinal);
        Assert.DoesNotContain(repairs, other => other.Changes[0] is HandOverLate or HardeningRented or SpacesRented { Bench.Use: BenchUse.Heat } or ZoneSetpoints);
    }

    [Fact]
    public void Zone_MayNotHaveTheSetpoint_IsSetToItInTheseWeeks()
    {
        var problem = Season with { Zones = [Season.Zones[0] with { SetpointsF = [65], BeforeF = 65 }], Batches = [Batch("b1")] };

        var repairs = Confirmed(problem);

        var repair = Assert.Single(repairs, repair => repair.Changes[0] is ZoneSetpoints);
        Assert.Equal([65, 75], Assert.IsType<ZoneSetpoints>(repair.Changes[0]).SetpointsF);
        Assert.StartsWith("Set zone a to 75 °F from 19 Jan to 25 Jan, which it may not have so far: all 6 trays get their place, and it costs ", repair.Sentence, StringComparison.Ordinal);
        Assert.DoesNotContain(repairs, other => other.Changes[0] is HandOverLate or SowEarlier or SpacesRented { Bench.Use: not BenchUse.Heat } or HardeningRented);
    }

    [Fact]
    public void Zone_PromisedAtAnother_IsFreedInTheseWeeksOnly()
    {
        var problem = Season with
        {
            Zones = [Season.Zones[0] with { SetpointsF = [65, 75] }],
            Setpoints = [new FrozenSetpoint("a", Start, Start.AddDays(77), 65)],
            Batches = [Batch("b1")],
        };

        var repairs = Confirmed(problem);

        var repair = Assert.Single(repairs, repair => repair.Changes[0] is SetpointFreed);
        Assert.Equal([new SetpointFreed("a", new OutOfUse(Start.AddDays(14), Start.AddDays(21)))], repair.Changes);
        Assert.StartsWith("Set zone a to 75 °F from 19 Jan to 25 Jan instead of what was promised: all 6 trays get their place, and it costs ", repair.Sentence, StringComparison.Ordinal);
        Assert.DoesNotContain(repairs, other => other.Changes[0] is HandOverLate or SowEarlier or ZoneSetpoints or SpacesRented { Bench.Use: not BenchUse.Heat } or HardeningRented);
        Assert.Equal(65, repair.Planned.Plan.Zones[0].Setpoints[0].SetpointF);
        Assert.Equal(65, repair.Planned.Plan.Zones[0].Setpoints[^1].SetpointF);
    }

    [Theory]
    [InlineData("warm", "Rent 6 warm spaces for 2 weeks from 26 Jan: ")]
    [InlineData("cool", "Rent 6 cool spaces for 2 weeks from 26 Jan: ")]
    [InlineData("heat", "Rent 6 heated spaces for 1 week from 22 Jan: ")]
    [InlineData("hardening", "Rent 6 hardening spaces for 1 week from 9 Feb: ")]
    public void Rent_WhatIsMissing_IsOfThatKindAloneAndNoMore(string kind, string sentence)
    {
        var crop = kind == "cool" ? Basil with { WarmDays = null, CoolDays = 14 } : Basil;
        var problem = Season with
        {
            Crops = [crop],
            Zones = [Season.Zones[0] with { Spaces = kind == "heat" ? 6 : 12 }],
            Benches =
            [
                Season.Benches[0], Season.Benches[1] with { Spaces = kind == "warm" ? 6 : 12 }, Season.Benches[2] with { Spaces = kind == "cool" ? 6 : 12 },
            ],
            HardeningSpaces = kind == "hardening" ? 6 : 12,
            Batches = [Rigid("b1"), Rigid("b2")],
        };

        var repairs = Confirmed(problem).Where(repair => repair.Sentence.StartsWith("Rent", StringComparison.Ordinal)).ToList();

        var repair = Assert.Single(repairs);
        Assert.StartsWith(sentence + "all 6 trays get their place, and it costs ", repair.Sentence, StringComparison.Ordinal);
        Assert.EndsWith(" more, rent included.", repair.Sentence, StringComparison.Ordinal);
        Assert.InRange(repair.Price, 6 * 25 * (kind is "heat" or "hardening" ? 1 : 2), 6 * 25 * 2 + 2000);
    }

    [Fact]
    public void Rent_TwoKindsMissing_AreRentedTogether()
    {
        var problem = Season with
        {
            Benches = [Season.Benches[0], Season.Benches[1] with { Spaces = 8 }, Season.Benches[2]],
            HardeningSpaces = 10,
            Batches = [Rigid("b1"), Rigid("b2")],
        };

        // Without parts: a batch in two places would need less.
        var repair = Assert.Single(Confirmed(problem with { Prices = Prices.Usual with { Split = 1_000_000 } }), repair => repair.Changes[0] is SpacesRented);

        Assert.StartsWith("Rent 6 warm spaces for 2 weeks from 26 Jan and 2 hardening spaces for 1 week from 9 Feb: all 6 trays", repair.Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public void Drop_RoomForSomeOfThem_GivesUpNoMoreThanMustBe()
    {
        var problem = Season with
        {
            Benches = [Season.Benches[0], Season.Benches[1] with { Spaces = 10 }, Season.Benches[2]],
            Batches = [Rigid("b1"), Rigid("b2")],
        };

        var repair = Assert.Single(Confirmed(problem), repair => repair.Changes[0] is TraysDropped);

        Assert.Equal(2, Assert.IsType<TraysDropped>(repair.Changes[0]).Trays);
        Assert.Matches("^Give up 2 trays, 2 of the 6 of b[12]: 4 of the 6 trays without a place get one, and it costs [0-9.]+ more\\.$", repair.Sentence);
        Assert.InRange(repair.Price, 2 * 3000, (2 * 3000) + 2000);
    }

    [Fact]
    public void NothingHelps_OnlyGivingUpIsOffered()
    {
        var problem = Season with { Benches = [Season.Benches[0], Season.Benches[2]], Crops = [Basil with { CoolDays = null }], Batches = [Rigid("b1")] };

        var repairs = Confirmed(problem);

        Assert.Single(repairs, repair => repair.Changes[0] is SpacesRented);
        Assert.Contains(repairs, repair => repair.Sentence.StartsWith("Give up 6 trays, all 6 of b1: the others stay where they are", StringComparison.Ordinal));
        Assert.Equal(2, repairs.Count);
    }

    [Fact]
    public void SearchLonger_PlanThatWasCutShort_IsNoMeritOfAWayOut()
    {
        var plan = Planner.Plan(Season, new Effort(500)).Plan;
        Assert.Empty(plan.Unplaced);
        var short1 = plan with { Batches = [plan.Batches[0]], Unplaced = [new(plan.Batches[1].Id, 6, Nursery.Planning.Plans.WhyNot.NoSpaceFound, "")] };
        var score = new Nursery.Planning.Scoring.Scorer(Season).Of(short1);

        var repair = Assert.Single(Repairing.Of(Season, short1 with { Score = score }, 25, new Effort(200)).Repairs);

        Assert.Empty(repair.Changes);
        Assert.StartsWith("Search longer: all 6 trays get their place", repair.Sentence, StringComparison.Ordinal);
    }

    private static DateOnly Due => Start.AddDays(42);

    private static Batch Batch(string id) => new(id, "basil", 6, Due);

    /// <summary>Ready on its day or not at all, and no later or sooner with consent: the season ends and begins too close to it.</summary>
    private static Batch Rigid(string id) => new(id, "basil", 6, Due, Earliest: Due, Latest: Due, LastLate: Due, SowFrom: Due.AddDays(-25));

    private static string Without(string sentence, string price) => System.Text.RegularExpressions.Regex.Replace(sentence, "[0-9]+\\.[0-9]{2}", price);

    /// <summary>Every way's plan is possible and leaves out as many trays as it says.</summary>
    private static List<Repair> Confirmed(Problem problem)
    {
        var plan = Planner.Plan(problem, new Effort(500)).Plan;
        var left = plan.Unplaced.Sum(unplaced => unplaced.Trays);
        Assert.Equal(6, left);
        var way = Repairing.Of(problem, plan, rentSpaceWeek: 25, new Effort(500));
        foreach (var repair in way.Repairs)
        {
            Assert.Empty(repair.Planned.Checked.Remarks);
            Assert.Empty(PlanValidator.Check(repair.Planned.Checked.Usable, repair.Planned.Plan));
            Assert.Equal(left - repair.TraysMore, repair.Planned.Plan.Unplaced.Sum(unplaced => unplaced.Trays));
        }

        return [.. way.Repairs];
    }
}
