using Nursery.Planning.Plans;
using Nursery.Planning.Problems;
using Nursery.Planning.Scoring;
using Nursery.Planning.Tests.Instances;
using Nursery.Planning.Validation;
using Xunit;

namespace Nursery.Planning.Tests.Search;

public sealed class PlannerTests
{
    [Theory]
    [InlineData("S", 1, 0.90, 20_000)]
    [InlineData("S", 2, 1.40, 20_000)]
    [InlineData("M", 3, 0.95, 20_000)]
    public void Plan_InventedNurseries_CanBeCarriedOut(string size, int seed, double load, int steps)
    {
        var problem = InventedNursery.Make(size, seed, load);

        var plan = Planner.Plan(problem, new Effort(steps)).Plan;

        Assert.Empty(PlanValidator.Check(problem, plan));
        Assert.Equal(new Scorer(problem).Of(plan).ByConstraint, plan.Score.ByConstraint);
        Assert.Equal(
            plan.Score.PositionedCost, plan.Score.Cost + plan.Score.ByConstraint[nameof(Constraint.SplitRun)]);
    }

    [Fact]
    public void Plan_SameSeedAndSteps_IsTheSameToTheByte()
    {
        var problem = InventedNursery.Make("S", 4, 0.90);

        var plans = Enumerable.Range(0, 2).Select(_ => PlanningJson.Write(Planner.Plan(problem, new Effort(10_000, Seed: 7)).Plan)).ToList();

        Assert.Equal(plans[0], plans[1]);
        Assert.NotEqual(plans[0], PlanningJson.Write(Planner.Plan(problem, new Effort(10_000, Seed: 8)).Plan));
    }

    [Fact]
    public void Plan_LongerSearch_IsCheaperThanTheFirstPlan()
    {
        var problem = InventedNursery.Make("S", 5, 0.90);

        var first = Planner.Plan(problem, new Effort(0)).Plan.Score.PositionedCost;
        var later = Planner.Plan(problem, new Effort(20_000)).Plan.Score.PositionedCost;

        Assert.True(later < 0.6 * first, $"{first} became {later}");
    }

    /// <summary>Without the forecast of setpoints it costs twice as much (1,171,538).</summary>
    [Fact]
    public void Plan_LargeNursery_FirstPlanGathersBatchesByLevel()
    {
        const long Bound = 432_063;
        var problem = InventedNursery.Make("L", 1, 0.90);

        var plan = Planner.Plan(problem, new Effort(0)).Plan;

        Assert.Empty(PlanValidator.Check(problem, plan));
        Assert.Empty(plan.Unplaced);
        Assert.InRange(plan.Score.PositionedCost, Bound, Bound * 3 / 2);
    }

    [Fact]
    public void Plan_Stopped_GivesTheBestSoFar()
    {
        var problem = InventedNursery.Make("S", 1, 0.90);
        using var stop = new CancellationTokenSource();
        var told = new List<PlanProgress>();

        var plan = Planner.Plan(problem, Effort.Seconds(600), Tell, stop.Token).Plan;

        Assert.Empty(PlanValidator.Check(problem, plan));
        Assert.Equal(told[^1].BestCost, plan.Score.PositionedCost);
        Assert.InRange(told[^1].Done, 0, 0.5);

        void Tell(PlanProgress progress)
        {
            told.Add(progress);
            stop.Cancel();
        }
    }

    [Fact]
    public void Better_FromAPlan_KeepsWhatItHas()
    {
        var problem = InventedNursery.Make("S", 1, 0.90);
        var plan = Planner.Plan(problem, new Effort(5_000)).Plan;

        var same = Planner.Better(problem, plan, new Effort(0)).Plan;

        Assert.Equal(PlanningJson.Write(plan), PlanningJson.Write(same));
    }

    [Fact]
    public void Plan_NothingToPlace_IsEmpty()
    {
        var problem = new Problem(SmallNursery.Start, 28, [], [], [], 0, [], []);

        var plan = Planner.Plan(problem, new Effort(100)).Plan;

        Assert.Empty(plan.Batches);
        Assert.Empty(plan.Unplaced);
        Assert.Equal(0, plan.Score.Cost);
    }

    [Fact]
    public void Plan_PromisedSetpointsAndFrozenTrays_AreKept()
    {
        var problem = InventedNursery.Make("S", 1, 0.90);
        var zone = problem.Zones[0];
        problem = problem with
        {
            Setpoints = [new FrozenSetpoint(zone.Id, problem.Start, problem.DateOf(70), 65)],
            Frozen = [new FrozenStay(zone.Id, problem.DateOf(70), problem.DateOf(84), 1, zone.Spaces, 70, 75)],
        };

        var plan = Planner.Plan(problem, new Effort(5_000)).Plan;

        Assert.Empty(PlanValidator.Check(problem, plan));
        var path = plan.Zones.Single(path => path.Zone == zone.Id);
        Assert.Equal(65, path.Setpoints[0].SetpointF);
        Assert.DoesNotContain(plan.Batches, placed => placed.Heat.Any(stay => stay.Zone == zone.Id)
            && placed.SowOn < problem.DateOf(84) && placed.MoveOffOn > problem.DateOf(70));
        Assert.InRange(SetpointOn(path, problem.DateOf(75)), 70, 75);
    }

    private static double SetpointOn(ZonePath path, DateOnly day) =>
        path.Setpoints.Single(span => span.From <= day && day < span.To).SetpointF ?? 0;
}
