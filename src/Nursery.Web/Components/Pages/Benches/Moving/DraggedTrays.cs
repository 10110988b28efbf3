using Nursery.Application.Benches;

namespace Nursery.Web.Components.Pages.Benches.Moving;

/// <summary>Trays taken hold of with the pointer. They stay in hand when another house is drawn under them.</summary>
/// <param name="Trays">Which.</param>
/// <param name="Spaces">How many spaces they take.</param>
/// <param name="Held">Which of their spaces was taken hold of, from 0; it stays under the pointer.</param>
public sealed record DraggedTrays(BenchTrays Trays, int Spaces, int Held)
{
    /// <returns>Null when the trays are no longer there.</returns>
    public static DraggedTrays? Of(MapLayout layout, Guid reservation, double grabX, double grabY)
    {
        var from = layout.Benches.FirstOrDefault(bench => bench.Sets.Any(set => set.Set.ReservationId == reservation));
        if (from is null)
        {
            return null;
        }

        var set = from.Sets.First(set => set.Set.ReservationId == reservation).Set;
        var run = set.Run!.Value;
        var held = Math.Clamp((from.Geometry.SpaceAt(grabX, grabY) ?? run.First) - run.First, 0, run.Count - 1);
        return new DraggedTrays(set.Batches[0], run.Count, held);
    }
}
