using Nursery.Planning.Checks;
using Nursery.Planning.Plans;
using Nursery.Planning.Problems;
using Nursery.Planning.Tests.Instances;
using Nursery.Planning.Validation;
using Xunit;

namespace Nursery.Planning.Tests.Checks;

/// <summary>Bad input gets a sentence; the rest is still planned.</summary>
public sealed class ProblemCheckTests
{
    private static readonly Problem Right = SmallNursery.Make(3) with { Batches = [Batch("1", "cool"), Batch("2", "either")] };

    public static TheoryData<string, Problem> Wrong => new()
    {
        { "benches[new].spaces: 0 is not allowed; 1 to 5000", Right with { Benches = [.. Right.Benches, new("new", "house", BenchUse.Warm, 0, 1, 1)] } },
        { "benches[new].use: Hardening is not allowed", Right with { Benches = [.. Right.Benches, new("new", "house", BenchUse.Hardening, 5, 1, 1)] } },
        { "benches.id: \"warm\" is not allowed", Right with { Benches = [.. Right.Benches, Right.Benches[1]] } },
        { "zones[new].bench: \"warm\" is not allowed", Right with { Zones = [.. Right.Zones, new("new", "warm", 1, 2, [70])] } },
        { "zones[new].firstSpace: 1 is not allowed", Right with { Zones = [.. Right.Zones, new("new", "heat", 1, 2, [70])] } },
        { "zones[new].spaces: 9 from space 9 is not allowed", Right with { Zones = [.. Right.Zones, new("new", "heat", 9, 9, [70])] } },
        { "zones[b].setpointsF: 300 is not allowed; 32 to 120", Right with { Zones = [Right.Zones[0], Right.Zones[1] with { SetpointsF = [65, 70, 300] }] } },
        { "crops[odd].table.setpointF: 90 is not allowed; 60 to 70", Right with { Crops = [.. Right.Crops, new("odd", 60, 65, 70, [new(90, 0.5)], 5)] } },
        { "crops[odd].table.progressPerDay: 0 is not allowed", Right with { Crops = [.. Right.Crops, new("odd", 60, 65, 70, [new(65, 0)], 5)] } },
        { "crops[odd].bestF: 75 is not allowed; 60 to 70", Right with { Crops = [.. Right.Crops, new("odd", 60, 75, 70, [], 5)] } },
        { "prices.split: -1 is not allowed; 0 to 1000000", Right with { Prices = Right.Prices! with { Split = -1 } } },
        { "hardeningDays: 99 is not allowed; 0 to 60", Right with { HardeningDays = 99 } },
        { "frozen[0].where: \"roof\" is not allowed", Right with { Frozen = [new("roof", Day(1), Day(2), 1, 1)] } },
        { "setpoints[0].setpointF: 81 is not allowed", Right with { Setpoints = [new("a", Day(0), Day(7), 81)] } },
        { "benches[warm].outOfUse: 2026-01-07 to 2026-01-06 is not allowed", Right with { Benches = [Right.Benches[0], Right.Benches[1] with { OutOfUse = [new(Day(2), Day(1))] }, Right.Benches[2]] } },
    };

    public static TheoryData<string, WhyNot, Batch> WrongBatches => new()
    {
        { "batches[3].trays: 0 is not allowed", WhyNot.SetAside, Batch("3", "cool") with { Trays = 0 } },
        { "It needs 400 spaces on heat that suits it and 400 on benches of one band and in hardening; the nursery has ", WhyNot.SetAside, Batch("3", "cool") with { Trays = 400 } },
        { "batches[3].crop: \"moss\" is not allowed", WhyNot.SetAside, Batch("3", "moss") },
        { "batches[3].earliest: ", WhyNot.SetAside, Batch("3", "cool") with { Earliest = Day(40), Latest = Day(30) } },
        { "Ready by 2026-01-09 is not possible", WhyNot.WindowPast, Batch("3", "cool") with { Due = Day(3), Earliest = Day(2), Latest = Day(3), LastLate = Day(4) } },
        { "Ready by 2026-02-13 is not possible: sown on 2026-02-04", WhyNot.WindowPast, Batch("3", "cool") with { SowFrom = Day(30) } },
    };

    [Theory]
    [MemberData(nameof(Wrong))]
    public void Plan_WrongValue_IsLeftOutWithASentence(string sentence, Problem problem)
    {
        var planned = Planner.Plan(problem, new Effort(50));

        Assert.Contains(planned.Plan.Remarks!, remark => remark.StartsWith(sentence, StringComparison.Ordinal));
        Assert.Equal(2, planned.Plan.Batches.Count + planned.Plan.Unplaced.Count);
        Assert.Empty(PlanValidator.Check(planned.Checked.Usable, planned.Plan));
    }

    [Theory]
    [MemberData(nameof(WrongBatches))]
    public void Plan_WrongBatch_IsSetAsideAndTheRestIsPlanned(string sentence, WhyNot reason, Batch wrong)
    {
        var planned = Planner.Plan(Right with { Batches = [.. Right.Batches, wrong] }, new Effort(500));

        var unplaced = Assert.Single(planned.Plan.Unplaced, unplaced => unplaced.Id == "3");
        Assert.Equal(reason, unplaced.Reason);
        Assert.StartsWith(sentence, unplaced.Why, StringComparison.Ordinal);
        Assert.Equal(2, planned.Plan.Batches.Count);
    }

    [Fact]
    public void Plan_NoZoneOrBenchSuits_IsSaid()
    {
        var noZone = Planner.Plan(Right with { Zones = [Right.Zones[0] with { SetpointsF = [75] }] }, new Effort(50)).Plan;
        var noBench = Planner.Plan(Right with { Benches = [.. Right.Benches.Where(bench => bench.Use != BenchUse.Cool)] }, new Effort(50)).Plan;

        Assert.Equal((WhyNot.NoZoneSuits, "No zone may be set to what cool needs: 65, 70 °F."), Why(noZone));
        Assert.Equal((WhyNot.NoBenchOfBand, "There is no cool bench for cool."), Why(noBench));

        static (WhyNot, string) Why(Plan plan) => (plan.Unplaced[0].Reason, plan.Unplaced[0].Why);
    }

    [Theory]
    [InlineData(6)]
    [InlineData(731)]
    public void Plan_NoSeasonAtAll_IsRefused(int days) =>
        Assert.Equal(
            $"days: {days} is not allowed; 7 to 730 is.",
            Assert.Throws<ProblemUnreadable>(() => Planner.Plan(Right with { Days = days }, new Effort(0))).Message);

    private static Batch Batch(string id, string crop) => new(id, crop, 2, Day(30));

    private static DateOnly Day(int day) => SmallNursery.Start.AddDays(day);
}
