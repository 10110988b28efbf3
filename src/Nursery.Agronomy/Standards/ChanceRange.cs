namespace Nursery.Agronomy.Standards;

/// <summary>How far apart equal samples of any size may lie by chance alone, for trays, which are not 100 seeds on paper: the range of
/// independent binomial counts, exactly. Source: distribution of the range of independent values, David &amp; Nagaraja, Order Statistics,
/// 3rd ed. 2003, 2.3 (from memory); the published limits for 100 seeds are such ranges.</summary>
public static class ChanceRange
{
    /// <summary>Chance that the largest count lies more than a difference above the smallest.</summary>
    /// <param name="samples">2 to 100.</param>
    /// <param name="seeds">Seeds of each, 1 to 2000.</param>
    /// <param name="fraction">True for all of them.</param>
    /// <param name="difference">Seeds, 0 to seeds.</param>
    /// <exception cref="InputOutOfRange">An input outside its range.</exception>
    public static Fraction Exceeding(int samples, int seeds, Fraction fraction, int difference)
    {
        InputOutOfRange.Within(samples, 2, 100, nameof(samples), "samples");
        InputOutOfRange.Within(seeds, 1, 2000, nameof(seeds), "seeds");
        InputOutOfRange.Within(difference, 0, seeds, nameof(difference), "seeds");
        var below = Cumulative(seeds, fraction.Value);
        var within = 0d;
        for (var least = 0; least <= seeds; least++)
        {
            // All in least … least + difference, and not all above least.
            var top = below[Math.Min(seeds, least + difference) + 1];
            within += Math.Pow(top - below[least], samples) - Math.Pow(Math.Max(0, top - below[least + 1]), samples);
        }

        return new Fraction(Math.Clamp(1 - within, 0, 1));
    }

    /// <summary>The largest difference still taken for chance.</summary>
    /// <param name="samples">2 to 100.</param>
    /// <param name="seeds">Seeds of each, 1 to 2000.</param>
    /// <param name="fraction">True for all of them.</param>
    /// <param name="error">Chance to call a difference that is none, 0.0001 to 0.5; 0.025 in the published tables.</param>
    public static int Allowed(int samples, int seeds, Fraction fraction, double error = 0.025)
    {
        InputOutOfRange.Within(error, 0.0001, 0.5, nameof(error), "");
        var difference = 0;
        while (Exceeding(samples, seeds, fraction, difference).Value > error)
        {
            difference++;
        }

        return difference;
    }

    /// <summary>Chances of fewer than i, i from 0 to n + 1.</summary>
    private static double[] Cumulative(int n, double p)
    {
        var below = new double[n + 2];
        for (var count = 0; count <= n; count++)
        {
            below[count + 1] = Math.Min(1, below[count] + MathNet.Numerics.Distributions.Binomial.PMF(p, n, count));
        }

        below[n + 1] = 1;
        return below;
    }
}
