using Nursery.Planning.Plans;
using Nursery.Planning.Problems;
using Nursery.Planning.Scoring;
using Nursery.Planning.Validation;
using Xunit;

namespace Nursery.Planning.Tests.Validation;

/// <summary>A plan that is right, and one broken on purpose for every name.</summary>
public sealed class PlanValidatorTests
{
    private static readonly DateOnly Start = new(2026, 1, 5);
    private static readonly Problem Problem = new(
        Start, 42, [new("house")],
        [new("heat", "house", BenchUse.Heat, 30, 60, 99), new("warm", "house", BenchUse.Warm, 30, 60, 99), new("cool", "house", BenchUse.Cool, 30, 60, 99)],
        [new("a", "heat", 1, 20, [65, 70, 75, 80])], 30, [new("crop", 68, 75, 77, [new(70, 0.25), new(75, 0.34)], 9, FootprintFactor: 1.5)],
        [new("one", "crop", 10, Start.AddDays(30)), new("two", "crop", 10, Start.AddDays(30))]);

    private static readonly Plan Right = new([Placed("one", 1, 1), Placed("two", 11, 16)], [Path(70)], [], Score.None);

    [Fact]
    public void Check_RightPlan_FindsNothing() => Assert.Empty(PlanValidator.Check(Problem, Right));

    public static TheoryData<Constraint, Plan> Broken => new()
    {
        { Constraint.OverCapacity, One(two => two with { Heat = [new("a", 10, 10)] }) },
        { Constraint.OverCapacity, One(two => two with { Heat = [new("a", 12, 10)] }) },
        { Constraint.OverCapacity, One(two => two with { Benches = [new("warm", 1, 10, 1, 15)] }) },
        { Constraint.TooCold, Right with { Zones = [Path(65)] } },
        { Constraint.TooCold, Right with { Zones = [Path(null)] } },
        { Constraint.TooHot, Right with { Zones = [Path(80)] } },
        { Constraint.MixedSetpoints, Right with { Zones = [Path(75)] } },
        { Constraint.MixedSetpoints, Right with { Zones = [new("a", [new(Start, Start.AddDays(12), 70), new(Start.AddDays(12), Start.AddDays(42), 75)])] } },
        { Constraint.WrongSetpoint, Right with { Zones = [Path(72)] } },
        { Constraint.WrongHeatDays, One(two => two with { SowOn = two.SowOn.AddDays(1) }) },
        { Constraint.WrongHeatDays, One(two => two with { SowOn = two.SowOn.AddDays(-1) }) },
        { Constraint.WrongBand, One(two => two with { Band = BenchUse.Cool, Benches = [new("cool", 16, 10, 16, 15)] }) },
        { Constraint.WrongBand, One(two => two with { Benches = [new("cool", 16, 10, 16, 15)] }) },
        { Constraint.WrongStay, One(two => two with { SpaceOn = two.SpaceOn.AddDays(1) }) },
        { Constraint.WrongStay, One(two => two with { HardenOn = two.HardenOn.AddDays(1) }) },
        { Constraint.OutOfWindow, One(two => Shifted(two, 10)) },
        { Constraint.OutOfWindow, One(two => Shifted(two, -4)) },
        { Constraint.NotWhole, One(two => two with { Heat = [new("a", 11, 9)] }) },
        { Constraint.NotWhole, One(two => two with { Benches = [new("warm", 15, 10, 16, 15)] }) },
        { Constraint.NotWhole, Right with { Batches = [Right.Batches[0]] } },
        { Constraint.NotWhole, Right with { Batches = [.. Right.Batches, Right.Batches[0]] } },
        { Constraint.NotWhole, Right with { Batches = [.. Right.Batches, Right.Batches[0] with { Id = "three" }] } },
    };

    [Theory]
    [MemberData(nameof(Broken))]
    public void Check_BrokenPlan_NamesIt(Constraint constraint, Plan plan) =>
        Assert.Contains(PlanValidator.Check(Problem, plan), violation => violation.Constraint == constraint);

    [Fact]
    public void Check_HardeningOutOfUseAndFrozen_Count()
    {
        Assert.Contains(Constraint.OverCapacity, Violations(Problem with { HardeningSpaces = 29 }));
        Assert.Contains(Constraint.OverCapacity, Violations(Problem with { Frozen = [new("warm", Start.AddDays(20), Start.AddDays(21), 30, 1)] }));
        Assert.Contains(Constraint.OverCapacity, Violations(Problem with { Benches = [Problem.Benches[0] with { OutOfUse = [new(Start.AddDays(10), Start.AddDays(11))] }, .. Problem.Benches.Skip(1)] }));
        Assert.Empty(Violations(Problem with { Benches = [Problem.Benches[0] with { OutOfUse = [new(Start, Start.AddDays(2))] }, .. Problem.Benches.Skip(1)] }));
        Assert.Contains(Constraint.WrongSetpoint, Violations(Problem with { Setpoints = [new("a", Start, Start.AddDays(7), 75)] }));

        static IEnumerable<Constraint> Violations(Problem problem) => PlanValidator.Check(problem, Right).Select(violation => violation.Constraint);
    }

    private static Plan One(Func<PlannedBatch, PlannedBatch> change) => Right with { Batches = [Right.Batches[0], change(Right.Batches[1])] };

    private static PlannedBatch Shifted(PlannedBatch placed, int days) => placed with
    {
        SowOn = placed.SowOn.AddDays(days),
        MoveOffOn = placed.MoveOffOn.AddDays(days),
        SpaceOn = placed.SpaceOn.AddDays(days),
        HardenOn = placed.HardenOn.AddDays(days),
        ReadyOn = placed.ReadyOn.AddDays(days),
    };

    private static PlannedBatch Placed(string id, int inZone, int onBench) => new(
        id, Start.AddDays(10), Start.AddDays(14), Start.AddDays(18), Start.AddDays(23), Start.AddDays(30), 70, BenchUse.Warm,
        [new("a", inZone, 10)], [new("warm", onBench, 10, onBench, 15)]);

    private static ZonePath Path(double? setpoint) => new("a", [new(Start, Start.AddDays(42), setpoint)]);
}
