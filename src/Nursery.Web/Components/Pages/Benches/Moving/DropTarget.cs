using Nursery.Application.Benches;

namespace Nursery.Web.Components.Pages.Benches.Moving;

/// <summary>Where dragged trays would lie: the run of spaces under them.</summary>
public sealed record DropTarget(BenchTrays Trays, string BenchCode, int FirstSpace, string Outline)
{
    /// <param name="layout">The house under the pointer.</param>
    /// <param name="dragged">What is dragged.</param>
    /// <param name="x">Where the pointer is.</param>
    /// <param name="y">See <paramref name="x"/>.</param>
    /// <returns>Null beside the benches.</returns>
    public static DropTarget? Under(MapLayout layout, DraggedTrays dragged, double x, double y)
    {
        foreach (var bench in layout.Benches)
        {
            if (bench.Geometry.SpaceAt(x, y) is { } space)
            {
                // At the bench's ends the run stays on the bench; one longer than the bench starts at 1, and is refused.
                var first = Math.Max(1, Math.Min(space - dragged.Held, bench.Bench.Capacity - dragged.Spaces + 1));
                var drawn = Math.Min(dragged.Spaces, bench.Bench.Capacity);
                return new DropTarget(dragged.Trays, bench.Bench.Code, first, bench.Geometry.OutlinePath(first, drawn, 1));
            }
        }

        return null;
    }
}
