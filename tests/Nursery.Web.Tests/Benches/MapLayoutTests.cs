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
                if (!map.House.Contains(labels[one].Box))
                {
                    Assert.Fail($"seed {seed}: {labels[one]} leaves the house");
                }

                foreach (var other in labels.Where(other => other != labels[one]))
                {
                    if (labels[one].Box.Overlaps(other.Box) || labels[one].Leader?.Crosses(other.Box) == true
                        || (labels[one].Leader is { } mine && other.Leader is { } theirs && mine.Crosses(theirs)))
                    {
                        Assert.Fail($"seed {seed}: {labels[one]} on {other}");
                    }
                }
            }

            placed += labels.Count;
        }

        Assert.True(placed > 5000, $"only {placed} labels in 300 houses: the test looks at too little");
    }

    [Fact]
    public void Of_GeneratedHouses_EveryBenchIsNamedAndTroubleComesFirst()
    {
        var (trouble, told, benches, counts) = (0, 0, 0, 0);
        for (var seed = 0; seed < 300; seed++)
        {
            var map = MapLayout.Of(SampleHouse.Generated(seed), Units.Metric);
            Assert.All(map.Benches, bench => Assert.True(bench.Name is not null, $"seed {seed}: {bench.Bench.Code} has no name"));
            var wrong = map.Benches.SelectMany(bench => bench.Sets).Where(set => set.Set.Trouble is not null).ToList();
            (benches, counts) = (benches + map.Benches.Count, counts + map.Benches.Count(bench => bench.Free is not null));
            (trouble, told) = (trouble + wrong.Count, told + wrong.Count(set => set.Label?.Second is not null));
        }

        // Dense houses at the smallest scale leave some to the list below the map.
        Assert.True(told > 0.6 * trouble, $"{told} of {trouble} wrong tray sets carry their word");
        Assert.True(counts > 0.99 * benches, $"{counts} of {benches} benches show their free spaces");
    }

    [Fact]
    public void Of_GeneratedHouses_APlateLiesOnItsZoneOrHasALeaderToIt()
    {
        var (zones, plates, led) = (0, 0, 0);
        for (var seed = 0; seed < 300; seed++)
        {
            foreach (var bench in MapLayout.Of(SampleHouse.Generated(seed), Units.UsCustomary).Benches)
            {
                foreach (var zone in bench.Zones)
                {
                    zones++;
                    if (zone.Plate is { } plate)
                    {
                        var spaces = bench.Geometry.Around(zone.Zone.FirstSpace, zone.Zone.Spaces);
                        var border = Box.Around(spaces.CenterX, spaces.CenterY, spaces.Width + (2 * BenchOnMap.HeatPad), spaces.Height + (2 * BenchOnMap.HeatPad));
                        Assert.True(plate.Box.Overlaps(border) == (plate.Leader is null), $"seed {seed}: {plate} of {border}");
                        (plates, led) = (plates + 1, led + (plate.Leader is null ? 0 : 1));
                    }
                }
            }
        }

        // What finds no room on the map is in the list beside it.
        Assert.True(plates > 0.7 * zones, $"{plates} of {zones} zones have a plate");
        Assert.InRange(led, 1, plates / 10);
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
    public void Of_GeneratedHouses_NoLabelBesideItsBenchHidesAnotherBench()
    {
        for (var seed = 0; seed < 300; seed++)
        {
            var map = MapLayout.Of(SampleHouse.Generated(seed), Units.Metric);
            foreach (var label in map.Benches.SelectMany(bench => bench.Sets).Select(set => set.Label).Where(label => label?.Leader is not null))
            {
                Assert.DoesNotContain(map.Benches, bench => bench.Geometry.Bench.Overlaps(label!.Box));
            }
        }
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
