using MathNet.Numerics.Distributions;

namespace Nursery.Agronomy.Germination;

/// <summary>In which interval the true fraction lies when x of n were seen. Sources: Newcombe, Statistics in Medicine 17: 857–872, 1998;
/// Wilson: NIST/SEMATECH e-Handbook of Statistical Methods, 7.2.4.1; Jeffreys: Brown, Cai &amp; DasGupta, Statistical Science 16: 101–133, 2001.</summary>
public static class ProportionInterval
{
    private const double Usual = 0.95;

    /// <summary>Wilson's score interval without continuity correction.</summary>
    /// <param name="x">Seen, 0 to n.</param>
    /// <param name="n">1 or more.</param>
    /// <param name="confidence">0.5 to 0.9999.</param>
    /// <exception cref="InputOutOfRange">An input outside its range.</exception>
    public static (Fraction Low, Fraction High) Wilson(int x, int n, double confidence = Usual)
    {
        var z = Normal.InvCDF(0, 1, 1 - (Tail(x, n, confidence)));
        var (p, size) = ((double)x / n, z * z / n);
        var half = z * Math.Sqrt((p * (1 - p) / n) + (size / n / 4));
        return (Bounded(((p + (size / 2)) - half) / (1 + size)), Bounded((p + (size / 2) + half) / (1 + size)));
    }

    /// <summary>Jeffreys' interval: quantiles of Beta(x + ½, n − x + ½); 0 and 1 at x = 0 and x = n.</summary>
    /// <inheritdoc cref="Wilson"/>
    public static (Fraction Low, Fraction High) Jeffreys(int x, int n, double confidence = Usual)
    {
        var tail = Tail(x, n, confidence);
        return (
            Bounded(x == 0 ? 0 : Beta.InvCDF(x + 0.5, n - x + 0.5, tail)),
            Bounded(x == n ? 1 : Beta.InvCDF(x + 0.5, n - x + 0.5, 1 - tail)));
    }

    /// <summary>Clopper and Pearson's exact interval.</summary>
    /// <inheritdoc cref="Wilson"/>
    public static (Fraction Low, Fraction High) ClopperPearson(int x, int n, double confidence = Usual)
    {
        var tail = Tail(x, n, confidence);
        return (
            Bounded(x == 0 ? 0 : Beta.InvCDF(x, n - x + 1, tail)),
            Bounded(x == n ? 1 : Beta.InvCDF(x + 1, n - x, 1 - tail)));
    }

    private static double Tail(int x, int n, double confidence)
    {
        InputOutOfRange.Within(n, 1, 100_000_000, nameof(n), "seeds");
        InputOutOfRange.Within(x, 0, n, nameof(x), "seeds");
        return (1 - InputOutOfRange.Within(confidence, 0.5, 0.9999, nameof(confidence), "")) / 2;
    }

    private static Fraction Bounded(double value) => new(Math.Clamp(value, 0, 1));
}
