namespace Nursery.Agronomy.DegreeDays;

/// <summary>Degree days between a lower and an upper threshold with horizontal cutoff: warmth above the upper one counts as if it stood there.
/// Source: degree-day methods of the University of California Statewide IPM Program (single and double triangle and sine, after
/// Zalom et al. 1983); simple average, Oregon State University IPPC.</summary>
public static class DegreeDay
{
    /// <summary>°C·days of one day.</summary>
    /// <param name="low">Minimum, −60 to 60 °C.</param>
    /// <param name="high">Maximum, low to 60 °C.</param>
    /// <param name="nextLow">Minimum of the next day, for the double methods; as today's when null.</param>
    /// <param name="lower">Lower threshold, −20 to 50 °C.</param>
    /// <param name="upper">Upper threshold, above the lower, to 60 °C.</param>
    /// <param name="method">How the day is drawn.</param>
    /// <exception cref="InputOutOfRange">An input outside its range.</exception>
    public static double Of(Temperature low, Temperature high, Temperature? nextLow, Temperature lower, Temperature upper, DegreeDayMethod method)
    {
        InputOutOfRange.Within(low.C, -60, 60, "minC", "°C");
        InputOutOfRange.Within(high.C, low.C, 60, "maxC", "°C");
        InputOutOfRange.Within(nextLow?.C ?? low.C, -60, 60, "nextMinC", "°C");
        InputOutOfRange.Within(lower.C, -20, 50, "lowerC", "°C");
        InputOutOfRange.Above(upper.C, lower.C, 60, "upperC", "°C");
        var (min, max, next) = (low.C, high.C, nextLow?.C ?? low.C);
        double Between(Func<double, double, double, double> above, double from, double to) =>
            above(Math.Min(from, to), Math.Max(from, to), lower.C) - above(Math.Min(from, to), Math.Max(from, to), upper.C);
        return method switch
        {
            DegreeDayMethod.SimpleAverage => Math.Max(0, Math.Min((min + max) / 2, upper.C) - lower.C),
            DegreeDayMethod.SingleTriangle => Between(AboveTriangle, min, max),
            DegreeDayMethod.DoubleTriangle => (Between(AboveTriangle, min, max) + Between(AboveTriangle, next, max)) / 2,
            DegreeDayMethod.SingleSine => Between(AboveSine, min, max),
            DegreeDayMethod.DoubleSine => (Between(AboveSine, min, max) + Between(AboveSine, next, max)) / 2,
            _ => throw new ArgumentOutOfRangeException(nameof(method), method, "a way to draw a day"),
        };
    }

    /// <summary>The substitution used for corn: a minimum under the lower threshold counts as that, a maximum above the upper as that, then
    /// the mean.</summary>
    /// <inheritdoc cref="Of"/>
    public static double Substituted(Temperature low, Temperature high, Temperature lower, Temperature upper)
    {
        InputOutOfRange.Within(high.C, low.C, 60, "maxC", "°C");
        InputOutOfRange.Above(upper.C, lower.C, 60, "upperC", "°C");
        var (min, max) = (Math.Clamp(low.C, lower.C, upper.C), Math.Clamp(high.C, lower.C, upper.C));
        return ((min + max) / 2) - lower.C;
    }

    private static double AboveTriangle(double min, double max, double threshold) => max <= threshold
        ? 0
        : min >= threshold ? ((min + max) / 2) - threshold : (max - threshold) * (max - threshold) / (2 * (max - min));

    private static double AboveSine(double min, double max, double threshold)
    {
        var (mean, reach) = ((min + max) / 2, (max - min) / 2);
        if (max <= threshold)
        {
            return 0;
        }

        if (min >= threshold)
        {
            return mean - threshold;
        }

        var angle = Math.Asin((threshold - mean) / reach);
        return (((mean - threshold) * ((Math.PI / 2) - angle)) + (reach * Math.Cos(angle))) / Math.PI;
    }
}
