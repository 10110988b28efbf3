using Nursery.Application.Benches;
using Nursery.Domain.Batches;
using Nursery.Web.Components.Pages.Benches;
using Xunit;

namespace Nursery.Web.Tests.Benches;

public sealed class TraySetsOfBenchTests
{
    private static readonly HouseZone Zone = new("Z1", 1, 27, 21m, 21m);

    [Theory]
    [InlineData(true, true, 1, null, false)]
    [InlineData(true, false, 1, null, true)]
    [InlineData(false, true, 1, "still on heat", false)]
    [InlineData(false, true, 40, "not by plan", false)]
    public void Of_PlanAndFact_SaysWhatIsWrong(bool reserved, bool standing, int first, string? trouble, bool reservedOnly)
    {
        var set = Sets(SampleHouse.Trays("EG-031-K-1", first, 6, reserved: reserved, standing: standing)).Single();

        Assert.Equal(trouble, set.Trouble);
        Assert.Equal(reservedOnly, set.Fact == PlanAgainstFact.ReservedOnly);
    }

    [Fact]
    public void Of_FewerTraysStandThanReserved_IsAsPlanned()
    {
        var sets = Sets(
            SampleHouse.Trays("EG-031-K-1", 1, 10, standing: false), SampleHouse.Trays("EG-031-K-1", 1, 8, reserved: false));

        Assert.All(sets, set => Assert.Null(set.Trouble));
        Assert.Contains(sets, set => set.Fact == PlanAgainstFact.AsPlanned);
    }

    [Fact]
    public void Of_TwoSetsOnTheSameSpaces_IsDoubleUse()
    {
        var sets = Sets(
            SampleHouse.Trays("EG-031-K-1", 1, 10), SampleHouse.Trays("TO-004-A-1", 8, 6, reserved: false), SampleHouse.Trays("TO-005-B-1", 20, 4));

        Assert.Equal(["double use", "double use", null], sets.Select(set => set.Trouble));
        Assert.Equal(["TO-004-A-1"], sets[0].SharedWith);
        Assert.Equal([8, 9, 10], TraySetsOfBench.DoubleSpaces(sets));
    }

    [Fact]
    public void Of_BatchesThatShareTrays_IsOneTraySetOfTheLeastAdvancedStage()
    {
        var set = Sets(
            SampleHouse.Trays("BA-007-C-1", 1, 4, BatchStage.Emerging, variety: "Rookleaf"),
            SampleHouse.Trays("BA-007-C-1", 1, 4, BatchStage.Sown, variety: "Fernby")).Single();

        Assert.Equal(2, set.Batches.Count);
        Assert.Equal(BatchStage.Sown, set.Stage);
        Assert.Null(set.Trouble);
    }

    [Theory]
    [InlineData("EG-031-K-1", "EG-031")]
    [InlineData("EG-031-K-2", "EG-031/2")]
    [InlineData("tray 7", "tray 7")]
    public void ShortCode_LeavesOutTheCheckSign(string code, string shortCode) =>
        Assert.Equal(shortCode, Sets(SampleHouse.Trays(code, 1, 2)).Single().ShortCode);

    private static IReadOnlyList<TraySetOnBench> Sets(params BenchTrays[] trays) =>
        TraySetsOfBench.Of(SampleHouse.Bench("1A", 90, 101, 500, 3, 54, trays, Zone));
}
