using Nursery.Planning.Tests.Instances;
using Nursery.Planning.Validation;
using Xunit;
using Xunit.Abstractions;

namespace Nursery.Planning.Tests.Search;

/// <summary>What plans of invented nurseries cost beside what none can cost less than. The bounds were computed by Nursery.Bounds (docs/benchmarks.md
/// has them; <c>plan --size S --seed 1 --bound</c> of the benchmarks computes one again). The searches are shorter than the benchmark's, so that
/// every build can run them.</summary>
public sealed class QualityTests(ITestOutputHelper output)
{
    [Fact]
    public void Plan_SmallNurseries_CostAtMostATwentiethMoreThanTheBound() =>
        Holds("S", 1_500_000, [49_877, 51_655, 42_351, 55_982, 47_128], median: 1.05, worst: 1.10);

    [Fact]
    public void Plan_MediumNurseries_StayBelowTheirBar() =>
        Holds("M", 200_000, [127_249, 119_366, 116_553, 129_653, 132_759], median: 1.65, worst: 2.3);

    [Fact]
    public void Plan_LargeNursery_StaysBelowItsBar() => Holds("L", 600_000, [432_063], median: 1.35, worst: 1.35);

    /// <param name="bounds">Cents, of seeds 1, 2 … at load 0.90.</param>
    private void Holds(string size, int steps, int[] bounds, double median, double worst)
    {
        var ratios = Enumerable.Range(1, bounds.Length).AsParallel().AsOrdered().Select(seed =>
        {
            var problem = InventedNursery.Make(size, seed, 0.90);
            var plan = Planner.Plan(problem, new Effort(steps)).Plan;
            Assert.Empty(plan.Unplaced);
            Assert.Empty(PlanValidator.Check(problem, plan));
            return (double)plan.Score.Cost / bounds[seed - 1];
        }).ToList();
        output.WriteLine(FormattableString.Invariant($"{size}, {steps} steps: {string.Join(", ", ratios.Select(ratio => FormattableString.Invariant($"{ratio:0.000}")))}"));

        Assert.All(ratios, ratio => Assert.InRange(ratio, 1, worst));
        Assert.InRange(ratios.Order().ElementAt(ratios.Count / 2), 1, median);
    }
}
