using Nursery.Web.Components.Pages.Benches;
using Xunit;

namespace Nursery.Web.Tests.Benches;

public sealed class BenchGeometryTests
{
    private static readonly BenchGeometry Geometry = new(new Box(100, 50, 180, 90), rows: 3, capacity: 53);

    [Theory]
    [InlineData(1, 0, 0)]
    [InlineData(3, 0, 2)]
    [InlineData(4, 1, 0)]
    [InlineData(53, 17, 1)]
    public void Space_Number_RunsDownTheRowsThenAlong(int space, int column, int row)
    {
        var box = Geometry.Space(space);

        Assert.Equal(100 + (column * 10) + 5, box.CenterX, 6);
        Assert.Equal(50 + (row * 30) + 15, box.CenterY, 6);
    }

    [Fact]
    public void Space_All_LieInsideTheBenchAndApart()
    {
        var boxes = Enumerable.Range(1, 53).Select(Geometry.Space).ToList();

        Assert.All(boxes, box => Assert.True(Geometry.Bench.Contains(box)));
        Assert.DoesNotContain(boxes, box => boxes.Any(other => other != box && box.Overlaps(other)));
    }

    [Fact]
    public void SpaceAt_MiddleOfEverySpace_FindsIt() => Assert.All(
        Enumerable.Range(1, 53), space => Assert.Equal(space, Geometry.SpaceAt(Geometry.Space(space).CenterX, Geometry.Space(space).CenterY)));

    [Theory]
    [InlineData(99, 60)]
    [InlineData(281, 60)]
    [InlineData(150, 49)]
    [InlineData(150, 141)]
    [InlineData(275, 135)]
    public void SpaceAt_BesideTheBenchOrWhereItsLastColumnIsShort_FindsNone(double x, double y) =>
        Assert.Null(Geometry.SpaceAt(x, y));

    [Theory]
    [InlineData(1800, 880.0 / 1800)]
    [InlineData(880, 1)]
    [InlineData(9000, 0.3)]
    public void ScaleOf_House_FillsTheColumnButKeepsTraysLargeEnough(int lengthCm, double scale) =>
        Assert.Equal(scale, BenchGeometry.ScaleOf(lengthCm), 9);

    [Fact]
    public void TraysPath_Run_HasOneRectangleASpace()
    {
        var path = Geometry.TraysPath([1, 2]);

        Assert.Equal("M101 51h8v28h-8zM101 81h8v28h-8z", path);
    }

    [Theory]
    [InlineData(1, 1)]
    [InlineData(2, 1)]
    [InlineData(2, 2)]
    [InlineData(2, 3)]
    [InlineData(3, 14)]
    [InlineData(31, 14)]
    public void RowStretches_AnyRun_CoverItsTraysAndNoOther(int first, int count)
    {
        var stretches = Geometry.RowStretches(first, count).ToList();

        var covered = Enumerable.Range(1, 53).Where(space => stretches.Any(row => row.Contains(Geometry.Space(space))));
        Assert.Equal(Enumerable.Range(first, count), covered);
    }

    [Fact]
    public void OutlinePath_RunThatStartsAndEndsInMidColumn_StepsAroundIt() =>
        Assert.Equal(
            "M110 110L120 110L120 43L140 43L140 80L130 80L130 147L110 147Z",
            Geometry.OutlinePath(first: 6, count: 5, pad: 7));

    [Fact]
    public void OutlinePath_WholeBench_StandsOutAllAround() =>
        Assert.Equal("M93 43L287 43L287 147L93 147Z", new BenchGeometry(Geometry.Bench, 3, 54).OutlinePath(1, 54, 7));
}
