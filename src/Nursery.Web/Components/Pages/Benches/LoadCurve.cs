using System.Globalization;
using System.Text;
using Nursery.Application.Benches;

namespace Nursery.Web.Components.Pages.Benches;

/// <summary>The spaces held day by day as an area against full, in a box of one unit a day and <see cref="Height"/> units.</summary>
public sealed record LoadCurve(int Days, string Area, double FullY)
{
    public const double Height = 44;

    /// <summary>Room above full, so that too much is seen to be too much.</summary>
    private const double Headroom = 1.15;

    public static LoadCurve Of(IReadOnlyList<HouseLoad> load)
    {
        if (load.Count == 0)
        {
            return new LoadCurve(0, "", 0);
        }

        var top = Math.Max(1, Math.Max(load[0].Capacity, load.Max(day => day.Held))) * Headroom;
        var area = new StringBuilder(FormattableString.Invariant($"M0 {Height}"));
        for (var day = 0; day < load.Count; day++)
        {
            area.Append(CultureInfo.InvariantCulture, $"L{day} {Y(load[day].Held, top):0.##}");
        }

        area.Append(CultureInfo.InvariantCulture, $"L{load.Count - 1} {Height}Z");
        return new LoadCurve(load.Count, area.ToString(), Y(load[0].Capacity, top));
    }

    private static double Y(int held, double top) => Height - (held / top * Height);
}
