using Nursery.Application.Benches;
using Nursery.Domain;

namespace Nursery.Web.Components.Pages.Benches;

/// <summary>A house drawn to scale: everything the map draws, with places, before any of it is drawn.</summary>
public sealed record MapLayout(double Width, double Height, Box House, Box Door, IReadOnlyList<BenchOnMap> Benches)
{
    private const double Wall = 6;
    private const double DoorCm = 180;
    private const double DoorWord = 20;

    public static MapLayout Of(HousePlan house, Domain.Sites.Units units)
    {
        var scale = BenchGeometry.ScaleOf(house.LengthCm);
        var walls = new Box(Wall, Wall, house.LengthCm * scale, house.WidthCm * scale);
        var door = Box.Around(walls.CenterX, walls.Bottom, DoorCm * scale, Wall);
        var drafts = house.Benches.Select(bench => DraftOf(bench, walls, scale)).ToList();
        var labels = new MapLabels(walls, drafts.ConvertAll(draft => draft.Geometry.Bench));
        labels.Block(Box.Around(walls.CenterX, walls.Bottom - (DoorWord / 2), 40, DoorWord));
        foreach (var draft in drafts)
        {
            labels.Name(draft);
        }

        foreach (var draft in drafts)
        {
            labels.Free(draft);
        }

        foreach (var draft in drafts)
        {
            labels.Plates(draft, units);
        }

        // Trouble first, then the large ones; what has no free place keeps its title and its line in the panel.
        foreach (var (draft, set) in drafts.SelectMany(draft => draft.Sets.Select(set => (draft, set)))
            .OrderByDescending(pair => pair.set.Set.Trouble is not null).ThenByDescending(pair => pair.set.Set.Run?.Count))
        {
            labels.Code(draft, set);
        }

        // Last, for a plate has also its line beside the map.
        foreach (var draft in drafts)
        {
            labels.PlatesBeside(draft, units);
        }

        return new MapLayout(walls.Right + Wall, walls.Bottom + Wall, walls, door, drafts);
    }

    private static BenchOnMap DraftOf(HouseBench bench, Box walls, double scale)
    {
        var geometry = new BenchGeometry(
            new Box(walls.X + (bench.XCm * scale), walls.Y + (bench.YCm * scale), bench.LengthCm * scale, bench.WidthCm * scale),
            bench.Rows,
            bench.Capacity);
        var sets = TraySetsOfBench.Of(bench);
        var taken = sets.Where(set => set.Run is not null).SelectMany(set => TraySetsOfBench.Spaces(set.Run!.Value)).ToHashSet();
        var lost = bench.OutOfUse.SelectMany(run => Enumerable.Range(run.FirstSpace, run.Spaces)).ToHashSet();
        return new BenchOnMap(bench, geometry)
        {
            FreePath = geometry.TraysPath(Enumerable.Range(1, bench.Capacity).Where(space => !taken.Contains(space) && !lost.Contains(space))),
            OutPath = string.Concat(bench.OutOfUse.Select(run => geometry.OutlinePath(run.FirstSpace, run.Spaces, 0))),
            DoublePath = geometry.TraysPath(TraySetsOfBench.DoubleSpaces(sets)),
            Zones = [.. bench.Zones.Select(zone => new ZoneOnMap(zone, geometry.OutlinePath(zone.FirstSpace, zone.Spaces, BenchOnMap.HeatPad)))],
            Sets = [.. sets.Where(set => set.Run is not null).Select(set => new SetOnMap(set, PathOf(geometry, set.Run!.Value)))],
            Unplaced = [.. sets.Where(set => set.Run is null)],
        };
    }

    private static string PathOf(BenchGeometry geometry, SpaceRun run) => geometry.TraysPath(TraySetsOfBench.Spaces(run));
}
