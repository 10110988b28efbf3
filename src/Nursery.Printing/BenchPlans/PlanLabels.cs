using PdfSharp.Drawing;

namespace Nursery.Printing.BenchPlans;

/// <summary>Keeps labels apart: a place is given once, and never outside the plan.</summary>
internal sealed class PlanLabels(XRect area)
{
    private readonly List<XRect> _taken = [];

    /// <summary>The first of the places that is free; null when none is.</summary>
    public XRect? Choose(IEnumerable<XRect> places)
    {
        foreach (var place in places)
        {
            if (Inside(place) && !_taken.Exists(other => Meet(place, other)))
            {
                _taken.Add(place);
                return place;
            }
        }

        return null;
    }

    public static bool Meet(XRect a, XRect b) => a.Left < b.Right && b.Left < a.Right && a.Top < b.Bottom && b.Top < a.Bottom;

    private bool Inside(XRect place) =>
        place.Left >= area.Left && place.Top >= area.Top && place.Right <= area.Right && place.Bottom <= area.Bottom;
}
