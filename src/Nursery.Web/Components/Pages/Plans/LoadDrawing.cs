using System.Globalization;
using System.Text;

namespace Nursery.Web.Components.Pages.Plans;

/// <summary>Where the lines of a load curve lie, in pixels.</summary>
internal static class LoadDrawing
{
    public const double Width = 560;
    public const double Height = 170;
    public const double Left = 44;
    public const double Right = 548;
    public const double Top = 10;
    public const double Bottom = 140;
    private const double LabelWidth = 52;

    public static double Y(int spaces, int most) => Bottom - ((Bottom - Top) * spaces / most);

    /// <summary>A step a week.</summary>
    public static string Steps(IReadOnlyList<int> weeks, int most)
    {
        var path = new StringBuilder();
        for (var week = 0; week < weeks.Count; week++)
        {
            path.Append(CultureInfo.InvariantCulture, $"{(week == 0 ? "M" : "L")}{X(week, weeks.Count):0.#} {Y(weeks[week], most):0.#}H{X(week + 1, weeks.Count):0.#}");
        }

        return path.ToString();
    }

    /// <summary>Mondays with room for their names.</summary>
    public static IEnumerable<(double X, string Words)> Marks(DateOnly start, int weeks)
    {
        var every = (int)Math.Ceiling(LabelWidth * weeks / (Right - Left));
        for (var week = 0; week < weeks; week += every)
        {
            yield return (X(week, weeks), PlanWords.Day(start.AddDays(7 * week)));
        }
    }

    private static double X(int week, int weeks) => Left + ((Right - Left) * week / weeks);
}
