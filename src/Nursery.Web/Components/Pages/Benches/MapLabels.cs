using Nursery.Domain.Sites;

namespace Nursery.Web.Components.Pages.Benches;

/// <summary>Where the texts of a map may stand, best place first.</summary>
public sealed class MapLabels(Box walls)
{
    private const double LineHeight = 18;
    private const double Tight = 6;
    private const double Loose = 1.25;
    private static readonly double[] Shifts = [0, -16, 16, -32, 32, -48, 48, -72, 72, -96, 96];
    private readonly LabelPlacer _placer = new(walls);

    public void Block(Box box) => _placer.Block(box);

    /// <summary>Name left and free spaces right above the bench; below, or apart, where there is no room.</summary>
    public void Names(BenchOnMap on)
    {
        var bench = on.Geometry.Bench;
        var free = MapText.Free(on.Bench);
        var freeWidth = TextWidth.OfText(free);
        var above = bench.Y - BenchOnMap.HeatPad - LineHeight - 1;
        var below = bench.Bottom + BenchOnMap.HeatPad + 2;
        var fitted = TextWidth.FitName(on.Bench.Name, Math.Max(60, bench.Width - freeWidth - 8));
        var name = bench.Width < freeWidth + 68 ? TextWidth.FitName(on.Bench.Name, Math.Max(60, bench.Width)) : fitted;
        var nameWidth = TextWidth.OfName(name);
        double[] heights = [above, below, above - LineHeight - 2, below + LineHeight + 2, bench.Y + 1];
        on.Name = Placed(name, null, heights.Select(y => new LabelChoice(new Box(bench.X, y, nameWidth, LineHeight))));
        on.Free = Placed(free, null, heights.SelectMany(y => new[]
        {
            new LabelChoice(new Box(bench.Right - freeWidth, y, freeWidth, LineHeight)),
            new LabelChoice(new Box(bench.X, y, freeWidth, LineHeight)),
        }));
    }

    /// <summary>On the lower edge of the warm border, sideways or lower when two are near.</summary>
    public void Plates(BenchOnMap on, Units units)
    {
        foreach (var zone in on.Zones)
        {
            var text = MapText.Plate(zone.Zone, units);
            var around = on.Geometry.Around(zone.Zone.FirstSpace, zone.Zone.Spaces);
            var width = TextWidth.OfText(text) + 12;
            double[] heights = [around.Bottom + BenchOnMap.HeatPad, around.Bottom + BenchOnMap.HeatPad + LineHeight + 3, around.Y - BenchOnMap.HeatPad];
            zone.Plate = Placed(text, null, heights.SelectMany(y =>
                Shifts.Select(shift => new LabelChoice(Box.Around(around.CenterX + shift, y, width, LineHeight + 2)))));
        }
    }

    /// <summary>On its own trays where they are wide enough, else beside the bench with a leader, else over its middle.</summary>
    public void Code(BenchOnMap on, SetOnMap set)
    {
        var (text, second) = (set.Set.ShortCode, set.Set.Trouble);
        var width = Math.Max(TextWidth.OfCode(text), second is null ? 0 : TextWidth.OfText(second)) + 8;
        var height = second is null ? LineHeight : (2 * LineHeight) - 2;
        var run = set.Set.Run!.Value;
        var around = on.Geometry.Around(run.First, run.Count);
        var stretches = on.Geometry.RowStretches(run.First, run.Count)
            .OrderByDescending(row => row.Width >= width).ThenBy(row => Math.Abs(row.CenterY - around.CenterY)).ToList();
        IEnumerable<LabelChoice> inside = second is null
            ? stretches.Select(row => new LabelChoice(Box.Around(row.CenterX, row.CenterY, width, height)))
            : [new LabelChoice(Box.Around(around.CenterX, around.CenterY, width, height))];
        var room = second is null ? stretches[0].Width : around.Width;
        set.Label = Placed(
            text,
            second,
            (width <= room + Tight ? inside : []).Concat(Beside(on.Geometry.Bench, stretches, width, height))
                .Concat(width <= room * Loose ? inside : []).Concat(inside));
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

    private static double Near(Box box, double x) => Math.Clamp(x, box.X + 4, box.Right - 4);

    private Label? Placed(string text, string? second, IEnumerable<LabelChoice> choices) =>
        _placer.Place(choices) is { } choice ? new Label(choice.Box, text, second, choice.Leader) : null;
}
