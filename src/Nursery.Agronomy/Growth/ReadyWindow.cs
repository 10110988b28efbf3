namespace Nursery.Agronomy.Growth;

/// <summary>When plants are ready, days since sowing: emergence and the days of growing after it, each with its interval. The two are taken
/// as independent, so their half widths add as the root of their squares (elementary).</summary>
public static class ReadyWindow
{
    /// <summary>What a plan's one number of weeks leaves open on both sides, a tenth (from memory).</summary>
    private const double Open = 0.10;

    /// <param name="emergence">Half up, days since sowing, 0 to 366.</param>
    /// <param name="growing">Days from emergence to ready, 0 to 366: <see cref="ReadyDays.Of"/>.</param>
    /// <exception cref="InputOutOfRange">An input outside its range.</exception>
    public static Interval Of(Interval emergence, Interval growing)
    {
        foreach (var (value, name) in new[] { (emergence, nameof(emergence)), (growing, nameof(growing)) })
        {
            InputOutOfRange.Within(value.Low, 0, value.Median, name, "days");
            InputOutOfRange.Within(value.High, value.Median, 366, name, "days");
        }

        var median = emergence.Median + growing.Median;
        return new Interval(
            median,
            median - Root(emergence.Median - emergence.Low, growing.Median - growing.Low),
            median + Root(emergence.High - emergence.Median, growing.High - growing.Median));
    }

    /// <summary>The range of weeks behind a plan's one number, from sowing.</summary>
    /// <param name="weeks">Above 0, to 47.</param>
    public static (double Low, double High) WeeksAround(double weeks)
    {
        InputOutOfRange.Above(weeks, 0, 47, nameof(weeks), "weeks");
        return (weeks * (1 - Open), weeks * (1 + Open));
    }

    private static double Root(double a, double b) => Math.Sqrt((a * a) + (b * b));
}
