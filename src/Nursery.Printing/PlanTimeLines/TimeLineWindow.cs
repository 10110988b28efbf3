using static Nursery.Printing.Typography;

namespace Nursery.Printing.PlanTimeLines;

/// <summary>The weeks that lie side by side on one page, and where their days are across it, in points from the left margin.</summary>
/// <param name="FirstWeek">Of the season, from 0.</param>
/// <param name="Weeks">On the page.</param>
/// <param name="Right">Where the last of them ends.</param>
internal sealed record TimeLineWindow(int FirstWeek, int Weeks, double Right)
{
    /// <summary>Names of zones and benches stand before the weeks.</summary>
    public const double Left = 32 * Mm;

    /// <summary>So many that a batch of a week on heat has room for its code and spaces.</summary>
    private const int Most = 8;

    /// <summary>A short season keeps some air instead of bars as wide as the page.</summary>
    private const int Least = 4;

    public int FirstDay => 7 * FirstWeek;

    public int LastDay => 7 * (FirstWeek + Weeks);

    public double Week => (Right - Left) / Weeks;

    /// <summary>The season in windows of about the same number of weeks.</summary>
    public static IEnumerable<TimeLineWindow> Of(int weeks, double right)
    {
        var windows = Math.Max(1, (weeks + Most - 1) / Most);
        var each = Math.Max(Least, (weeks + windows - 1) / windows);
        for (var first = 0; first < Math.Max(1, weeks); first += each)
            yield return new TimeLineWindow(first, each, right);
    }

    public double X(int day) => Left + Math.Clamp(day - FirstDay, 0, 7 * Weeks) * Week / 7;

    public bool Has(int from, int to) => from < LastDay && to > FirstDay;
}
