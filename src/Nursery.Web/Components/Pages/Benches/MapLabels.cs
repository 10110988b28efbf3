using Nursery.Domain.Sites;

namespace Nursery.Web.Components.Pages.Benches;

/// <summary>Where the texts of a map may stand, best place first.</summary>
public sealed class MapLabels(Box walls, IReadOnlyList<Box> benches)
{
    private const double LineHeight = 18;
    private const double Tight = 6;
    private const double LeastName = 60;

    /// <summary>A text inside a bench leaves its upper edge to the plates of its zones.</summary>
    private const double Inside = 5;
    private static readonly double[] Shifts = [0, -16, 16, -32, 32, -48, 48, -72, 72, -96, 96];
    private readonly LabelPlacer _placer = new(walls);

    public void Block(Box box) => _placer.Block(box);

    /// <summary>Above the bench at its left end; inside it, along it or below where there is no room.</summary>
    public void Name(BenchOnMap on)
    {
        var bench = on.Geometry.Bench;
        var room = bench.Width - TextWidth.OfText(MapText.Free(on.Bench)) - Tight;
        var name = TextWidth.FitName(on.Bench.Name, Math.Max(LeastName, room < LeastName ? bench.Width : room));
        var width = TextWidth.OfName(name);
        on.Name = Placed(name, null, OwnFirst(bench, Rows(on).SelectMany(y => Along(bench.X, bench.Right - width)
            .Select(x => new Box(x, y, width, LineHeight)))));
    }

    /// <summary>Above the bench at its right end, else as the name.</summary>
    public void Free(BenchOnMap on)
    {
        var bench = on.Geometry.Bench;
        var free = MapText.Free(on.Bench);
        var width = TextWidth.OfText(free);
        on.Free = Placed(free, null, OwnFirst(bench, Rows(on).SelectMany(y => Along(bench.Right - width, bench.X)
            .Select(x => new Box(x, y, width, LineHeight)))));
    }

    /// <summary>On the lower or the upper edge of the warm border, sideways when two are near.</summary>
    public void Plates(BenchOnMap on, Units units)
    {
        // Drawn in by a little, a plate leaves the name of the next bench its line.
        Plates(on, units, border => [[border.Bottom, border.Y], [border.Bottom - Tight, border.Y + Tight]]);
    }

    /// <summary>Those that found no room so: beside the border, with a leader to it.</summary>
    public void PlatesBeside(BenchOnMap on, Units units) => Plates(
        on, units, border => [[border.Bottom + LineHeight, border.Y - LineHeight], [border.Bottom + (2 * LineHeight), border.Y - (2 * LineHeight)]]);

    private void Plates(BenchOnMap on, Units units, Func<Box, double[][]> heightsAt)
    {
        foreach (var zone in on.Zones.Where(zone => zone.Plate is null))
        {
            var text = MapText.Plate(zone.Zone, units);
            var border = BorderOf(on.Geometry.Around(zone.Zone.FirstSpace, zone.Zone.Spaces));
            var width = TextWidth.OfText(text) + 12;
            var boxes = heightsAt(border).SelectMany(heights => Shifts.SelectMany(shift =>
                heights.Select(y => Box.Around(border.CenterX + shift, y, width, LineHeight + 2))));
            zone.Plate = Placed(text, null, OwnFirst(on.Geometry.Bench, boxes).Select(choice => choice with { Leader = LeaderTo(border, choice.Box) }));
        }
    }

    /// <summary>On its own trays where they are wide enough, else beside the bench with a leader, else over its middle.
    /// What is wrong stands below the code; where two lines find no room, the code alone (the word is in the list).</summary>
    public void Code(BenchOnMap on, SetOnMap set)
    {
        var (text, second) = (set.Set.ShortCode, set.Set.Trouble);
        set.Label = Placed(text, second, Choices(on, set, text, second));
        if (set.Label is null && second is not null)
        {
            set.Label = Placed(text, null, Choices(on, set, text, null));
        }
    }

    private IEnumerable<LabelChoice> Choices(BenchOnMap on, SetOnMap set, string text, string? second)
    {
        var width = Math.Max(TextWidth.OfCode(text), second is null ? 0 : TextWidth.OfText(second)) + 8;
        var height = second is null ? LineHeight : (2 * LineHeight) - 2;
        var run = set.Set.Run!.Value;
        var around = on.Geometry.Around(run.First, run.Count);
        var stretches = on.Geometry.RowStretches(run.First, run.Count)
            .OrderByDescending(row => row.Width >= width).ThenBy(row => Math.Abs(row.CenterY - around.CenterY)).ToList();
        LabelChoice[] inside = second is null
            ? [.. stretches.Select(row => new LabelChoice(Box.Around(row.CenterX, row.CenterY, width, height)))]
            : [new LabelChoice(Box.Around(around.CenterX, around.CenterY, width, height))];
        var room = second is null ? stretches[0].Width : around.Width;
        return (width <= room + Tight ? inside : [])
            .Concat(Beside(on.Geometry.Bench, stretches, width, height).Where(choice => !benches.Any(choice.Box.Overlaps)))
            .Concat(inside);
    }

    private static IEnumerable<LabelChoice> Beside(Box bench, List<Box> stretches, double width, double height)
    {
        var (highest, lowest) = (stretches.MinBy(row => row.Y), stretches.MaxBy(row => row.Y));
        var above = bench.Y - BenchOnMap.HeatPad - height - 3;
        var below = bench.Bottom + BenchOnMap.HeatPad + 3;
        foreach (var lift in new[] { 0, LineHeight + 2 })
        {
            foreach (var shift in Shifts)
            {
                var under = Box.Around(lowest.CenterX + shift, below + lift + (height / 2), width, height);
                yield return new LabelChoice(under, new Line(lowest.CenterX, lowest.CenterY, Near(under, lowest.CenterX), under.Y));
                var over = Box.Around(highest.CenterX + shift, above - lift + (height / 2), width, height);
                yield return new LabelChoice(over, new Line(highest.CenterX, highest.CenterY, Near(over, highest.CenterX), over.Bottom));
            }
        }
    }

    private static Box BorderOf(Box spaces) => new(
        spaces.X - BenchOnMap.HeatPad, spaces.Y - BenchOnMap.HeatPad, spaces.Width + (2 * BenchOnMap.HeatPad), spaces.Height + (2 * BenchOnMap.HeatPad));

    /// <summary>From the nearest point of the border; none for what lies on it.</summary>
    private static Line? LeaderTo(Box border, Box box)
    {
        if (box.Overlaps(border))
        {
            return null;
        }

        var (x, y) = (Math.Clamp(box.CenterX, border.X, border.Right), Math.Clamp(box.CenterY, border.Y, border.Bottom));
        return new Line(x, y, Math.Clamp(x, box.X, box.Right), Math.Clamp(y, box.Y, box.Bottom));
    }

    private static double[] Rows(BenchOnMap on)
    {
        var bench = on.Geometry.Bench;
        var pad = on.Zones.Count > 0 ? BenchOnMap.HeatPad : 0;
        var (above, below) = (bench.Y - pad - LineHeight - 1, bench.Bottom + pad + 2);
        var inside = bench.Y + Inside;
        return [above, inside, .. inside + (2 * LineHeight) + 2 <= bench.Bottom ? [inside + LineHeight + 2] : (double[])[], below, above - LineHeight - 2, below + LineHeight + 2];
    }

    /// <summary>Places on another bench come last: a name there would be taken for that bench's.</summary>
    private IEnumerable<LabelChoice> OwnFirst(Box bench, IEnumerable<Box> boxes)
    {
        var all = boxes.ToList();
        return all.Where(box => !OnAnother(box)).Concat(all.Where(OnAnother)).Select(box => new LabelChoice(box));

        bool OnAnother(Box box) => benches.Any(other => other != bench && other.Overlaps(box));
    }

    private static double[] Along(double from, double to) =>
        [from, from + ((to - from) / 4), from + ((to - from) / 2), from + ((to - from) * 3 / 4), to];

    private static double Near(Box box, double x) => Math.Clamp(x, box.X + 4, box.Right - 4);

    private Label? Placed(string text, string? second, IEnumerable<LabelChoice> choices) =>
        _placer.Place(choices) is { } choice ? new Label(choice.Box, text, second, choice.Leader) : null;
}
