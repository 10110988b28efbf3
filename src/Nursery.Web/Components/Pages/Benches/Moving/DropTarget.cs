using Nursery.Application.Benches;

namespace Nursery.Web.Components.Pages.Benches.Moving;

/// <summary>Where dragged trays would lie: the run of spaces under them.</summary>
public sealed record DropTarget(BenchTrays Trays, string BenchCode, int FirstSpace, string Outline)
{
    /// <param name="layout">The house.</param>
    /// <param name="reservation">What is dragged.</param>
    /// <param name="grabX">Where it was taken hold of; the space there stays under the pointer.</param>
    /// <param name="grabY">See <paramref name="grabX"/>.</param>
    /// <param name="x">Where the pointer is.</param>
    /// <param name="y">See <paramref name="x"/>.</param>
    /// <returns>Null beside the benches, and when the trays are no longer there.</returns>
    public static DropTarget? Under(MapLayout layout, Guid reservation, double grabX, double grabY, double x, double y)
    {
        var from = layout.Benches.FirstOrDefault(bench => bench.Sets.Any(set => set.Set.ReservationId == reservation));
        if (from is null)
        {
            return null;
        }

        var set = from.Sets.First(set => set.Set.ReservationId == reservation).Set;
        var run = set.Run!.Value;
        var held = Math.Clamp((from.Geometry.SpaceAt(grabX, grabY) ?? run.First) - run.First, 0, run.Count - 1);
        foreach (var bench in layout.Benches)
        {
            if (bench.Geometry.SpaceAt(x, y) is { } space)
            {
                // At the bench's ends the run stays on the bench; one longer than the bench starts at 1, and is refused.
                var first = Math.Max(1, Math.Min(space - held, bench.Bench.Capacity - run.Count + 1));
                var drawn = Math.Min(run.Count, bench.Bench.Capacity);
                return new DropTarget(set.Batches[0], bench.Bench.Code, first, bench.Geometry.OutlinePath(first, drawn, 1));
            }
        }

        return null;
    }
}
