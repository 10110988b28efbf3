namespace Nursery.Agronomy.SeedAge;

/// <summary>What is left of a label's germination when the test is old, in a store nobody measured. A label is taken at its word for a year
/// (common practice, no source); from then on seed ages as <see cref="Viability"/> says in closed packets of a cool dry store.</summary>
public static class SeedStore
{
    /// <summary>Days after the test in which a label counts as it stands.</summary>
    public const int FreshDays = 365;

    /// <summary>Days a probit takes where no constants are published (from memory). What another store does to it, Harrington's rules say.</summary>
    private const double UsualSigmaDays = 1500;

    /// <summary>Seeds a test of a label counts (four times a hundred): what 'all of them' is worth.</summary>
    private const int TestedSeeds = 400;

    /// <summary>6 % of fresh weight (from memory).</summary>
    public static Fraction Moisture { get; } = Fraction.FromPercent(6);

    /// <summary>59 °F (from memory).</summary>
    public static Temperature Store { get; } = new(15);

    /// <summary>What still germinates.</summary>
    /// <param name="crop">Name of the crop.</param>
    /// <param name="label">Germination when tested.</param>
    /// <param name="daysSinceTest">Whole days; before the test and within a year nothing is lost.</param>
    /// <returns>The share, and the same with the store a probit worse and better than thought; all the label within a year.</returns>
    public static Interval After(string crop, Fraction label, int daysSinceTest)
    {
        var days = Math.Min(daysSinceTest - FreshDays, 100_000);
        if (days <= 0 || label.Value == 0)
        {
            return new Interval(label.Value, label.Value, label.Value);
        }

        var start = Viability.Adjusted(label, TestedSeeds);
        return ViabilityConstants.ByCrop.TryGetValue(crop.Trim(), out var known)
            ? new Viability(known.Constants, Moisture, Store).AfterWithinAProbit(start, days)
            : Usual(start, days);
    }

    /// <summary>Where the answer is from.</summary>
    public static string SourceOf(string crop) => ViabilityConstants.ByCrop.TryGetValue(crop.Trim(), out var known)
        ? $"Ellis & Roberts 1980, constants: {known.Source}"
        : "one probit in 1500 days, from memory";

    private static Interval Usual(Fraction start, double days)
    {
        var left = Viability.Deviate(start) - (days / UsualSigmaDays);
        return new Interval(Share(left), Share(left - 1), Share(left + 1));

        static double Share(double deviate) => MathNet.Numerics.Distributions.Normal.CDF(0, 1, deviate);
    }
}
