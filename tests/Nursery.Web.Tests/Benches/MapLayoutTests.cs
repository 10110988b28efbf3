using Nursery.Domain.Sites;
using Nursery.Web.Components.Pages.Benches;
using Xunit;

namespace Nursery.Web.Tests.Benches;

public sealed class MapLayoutTests
{
    [Fact]
    public void Of_GeneratedHouses_LabelsNeverOverlapNorLeaveTheHouse()
    {
        var placed = 0;
        for (var seed = 0; seed < 300; seed++)
        {
            var map = MapLayout.Of(SampleHouse.Generated(seed), Units.UsCustomary);
            var labels = LabelsOf(map);
            for (var one = 0; one < labels.Count; one++)
            {
                Assert.True(map.House.Contains(labels[one].Box), $"seed {seed}: {labels[one]} leaves the house");
                for (var other = 0; other < labels.Count; other++)
                {
                    Assert.False(one < other && labels[one].Box.Overlaps(labels[other].Box), $"seed {seed}: {labels[one]} on {labels[other]}");
                    Assert.False(
                        one != other && labels[one].Leader is { } leader && leader.Crosses(labels[other].Box),
                        $"seed {seed}: the leader of {labels[one]} runs through {labels[other]}");
                }
            }

            placed += labels.Count;
        }

        Assert.True(placed > 5000, $"only {placed} labels in 300 houses: the test looks at too little");
    }

    [Fact]
    public void Of_GeneratedHouses_EveryBenchIsNamedAndTroubleComesFirst()
    {
        var (trouble, told) = (0, 0);
        for (var seed = 0; seed < 300; seed++)
        {
            var map = MapLayout.Of(SampleHouse.Generated(seed), Units.Metric);
            Assert.All(map.Benches, bench => Assert.True(bench.Name is not null && bench.Free is not null, $"seed {seed}: {bench.Bench.Code} has no name"));
            var wrong = map.Benches.SelectMany(bench => bench.Sets).Where(set => set.Set.Trouble is not null).ToList();
            (trouble, told) = (trouble + wrong.Count, told + wrong.Count(set => set.Label is not null));
        }

        Assert.True(told > 0.9 * trouble, $"{told} of {trouble} wrong tray sets carry their word");
    }

    [Fact]
    public void Of_House_IsDrawnToScale()
    {
        var map = MapLayout.Of(SampleHouse.OfOneBench(), Units.Metric);

        var bench = map.Benches[0].Geometry.Bench;
        Assert.Equal(2.0, map.House.Width / map.House.Height, 9);
        Assert.Equal(1800.0 / 500, map.House.Width / bench.Width, 9);
        Assert.Equal(90.0 / 1800, (bench.X - map.House.X) / map.House.Width, 9);
        Assert.Equal(101.0 / 900, (bench.Y - map.House.Y) / map.House.Height, 9);
    }

    [Fact]
    public void Of_SmallTraySet_GetsALeader()
    {
        var map = MapLayout.Of(SampleHouse.OfOneBench(SampleHouse.Trays("EG-031-K-1", 1, 2), SampleHouse.Trays("EG-032-L-1", 10, 30)), Units.Metric);

        Assert.NotNull(map.Benches[0].Sets[0].Label!.Leader);
        Assert.Null(map.Benches[0].Sets[1].Label!.Leader);
    }

    private static List<Label> LabelsOf(MapLayout map) =>
    [
        .. map.Benches.SelectMany(bench => new[] { bench.Name, bench.Free }
            .Concat(bench.Zones.Select(zone => zone.Plate)).Concat(bench.Sets.Select(set => set.Label))).OfType<Label>(),
    ];
}
