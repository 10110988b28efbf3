using Nursery.Planning.Tests.Instances;
using Nursery.Planning.Validation;
using Xunit;

namespace Nursery.Planning.Tests.Search;

public sealed class SmallInstanceTests
{
    private const int Instances = 60;

    [Fact]
    public void Plan_SmallSeasons_AreTheBestThereIs()
    {
        var met = 0;
        for (var seed = 1UL; seed <= Instances; seed++)
        {
            var problem = SmallNursery.Make(seed);
            var best = Exhaustive.Cheapest(problem);
            var planned = Planner.Plan(problem, new Effort(Steps: 3000));

            Assert.Empty(PlanValidator.Check(problem, planned.Plan));
            Assert.True(planned.Plan.Score.PositionedCost >= best, $"seed {seed}: {planned.Plan.Score.PositionedCost} is below the best, {best}");
            met += planned.Plan.Score.PositionedCost == best ? 1 : 0;
        }

        Assert.True(met >= 0.95 * Instances, $"{met} of {Instances} are the best there is");
    }
}
