namespace Nursery.Agronomy.Forecast;

/// <summary>When a stand is short enough to act on, and whether that can be known in time. All from memory.</summary>
public static class ShortStand
{
    /// <summary>A shortfall matters from three plants and 5 % on.</summary>
    private const int Plants = 3;
    private const double Share = 0.05;

    /// <summary>Before this many times the days to half nobody can tell a short stand from a late one.</summary>
    private const double KnownAt = 1.5;

    /// <summary>Whether so few usable plants are worth acting on.</summary>
    /// <param name="wanted">Plants, 1 or more.</param>
    /// <param name="usable">Plants expected, 0 or more.</param>
    /// <exception cref="InputOutOfRange">An input outside its range.</exception>
    public static bool IsMaterial(int wanted, int usable)
    {
        InputOutOfRange.Within(wanted, 1, 10_000_000, nameof(wanted), "plants");
        var missing = wanted - InputOutOfRange.Within(usable, 0, int.MaxValue, nameof(usable), "plants");
        return missing >= Plants && missing >= Share * wanted;
    }

    /// <summary>The fewest usable plants that are no material shortfall; 0 or less when so few are wanted that none is material.</summary>
    /// <param name="wanted">Plants, 1 or more.</param>
    /// <exception cref="InputOutOfRange">An input outside its range.</exception>
    public static int Enough(int wanted)
    {
        InputOutOfRange.Within(wanted, 1, 10_000_000, nameof(wanted), "plants");
        return wanted - Math.Max(Plants, (int)Math.Ceiling(Share * wanted)) + 1;
    }

    /// <summary>Chance of a material shortfall.</summary>
    /// <param name="outlook">Of the batch.</param>
    /// <param name="wanted">Plants, 1 or more.</param>
    public static Fraction Chance(EmergenceOutlook outlook, int wanted) => new(1 - outlook.ChanceOf(Enough(wanted)).Value);

    /// <summary>First day on which a short stand shows, days since sowing.</summary>
    /// <param name="daysToHalf">Above 0, to 366.</param>
    public static double KnownFrom(double daysToHalf) => KnownAt * InputOutOfRange.Above(daysToHalf, 0, 366, nameof(daysToHalf), "days");

    /// <summary>Whether it shows before the last day of a resow. Where it does not, say so on sowing day: only slack or an insurance tray helps.</summary>
    /// <param name="daysToHalf">Above 0, to 366.</param>
    /// <param name="lastResowDay">Days since sowing; negative when the plan has no slack at all.</param>
    public static bool CanBeKnownInTime(double daysToHalf, double lastResowDay) => KnownFrom(daysToHalf) <= lastResowDay;
}
