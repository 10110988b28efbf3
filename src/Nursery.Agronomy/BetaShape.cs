namespace Nursery.Agronomy;

/// <summary>What is believed of a fraction that differs between batches: a beta distribution with mean a ÷ (a + b); the larger
/// a + b, the less batches differ. Source: NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.6.17.</summary>
public readonly record struct BetaShape
{
    private const double Smallest = 0.05;
    private const double Largest = 1e6;

    /// <exception cref="InputOutOfRange">a or b outside 0.05 to 1,000,000.</exception>
    public BetaShape(double a, double b) =>
        (A, B) = (InputOutOfRange.Within(a, Smallest, Largest, "a", ""), InputOutOfRange.Within(b, Smallest, Largest, "b", ""));

    private BetaShape((double A, double B) counts) => (A, B) = counts;

    public double A { get; }

    public double B { get; }

    public double Mean => A / (A + B);

    /// <summary>Standard deviation, 0 to 0.5.</summary>
    public double Spread => Math.Sqrt(A * B / ((A + B) * (A + B) * (A + B + 1)));

    /// <summary>The shape with this mean and a + b.</summary>
    /// <param name="mean">Above 0, below 1.</param>
    /// <param name="size">a + b; default 35, standard deviation 6 points at 85 % (from memory).</param>
    public static BetaShape Of(Fraction mean, double size = 35) => new(mean.Value * size, (1 - mean.Value) * size);

    /// <summary>The shape of an order statistic, whose parameters are counts of any size.</summary>
    internal static BetaShape OfCounts(double a, double b) => new((a, b));
}
