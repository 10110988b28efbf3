using MathNet.Numerics.Statistics;

namespace Nursery.Agronomy;

/// <summary>Days from sowing until half of the seedlings that finally emerged were up, by a straight line between two counts
/// (as Farooq et al., J. Integr. Plant Biol. 47: 187–193, 2005, interpolate; from memory). It says nothing before a first count: that more than
/// half were up when people first counted tells only that it was then or earlier.</summary>
/// <param name="Days">Known; null when it is not.</param>
/// <param name="AtMost">Days from sowing to the first count, when that found half or more already.</param>
public sealed record HalfTime(double? Days, int? AtMost)
{
    /// <summary>From the counts of one batch.</summary>
    /// <param name="counts">Days since sowing and share of seeds up (0–1), by day. A look that found nothing is a count of 0.</param>
    /// <param name="final">Share finally up, 0–1.</param>
    /// <returns>Null when nothing came up, or no count reached half.</returns>
    public static HalfTime? Of(IReadOnlyList<(int Day, double Fraction)> counts, double final)
    {
        var half = final / 2;
        for (var index = 0; half > 0 && index < counts.Count; index++)
        {
            var (day, fraction) = counts[index];
            if (fraction < half)
            {
                continue;
            }

            if (index == 0)
            {
                return new HalfTime(null, day);
            }

            var (dayBefore, fractionBefore) = counts[index - 1];
            return new HalfTime(dayBefore + ((half - fractionBefore) * (day - dayBefore) / (fraction - fractionBefore)), null);
        }

        return null;
    }

    /// <summary>The median of those known, days; null when none is.</summary>
    public static double? Median(IEnumerable<HalfTime?> times)
    {
        var known = times.Where(time => time?.Days is not null).Select(time => time!.Days!.Value).ToArray();
        return known.Length == 0 ? null : known.Median();
    }
}
