namespace Nursery.Agronomy.Germination;

/// <summary>Germination over several batches that differ from each other: beta-binomial, fitted by moments, so that many seeds of one batch do
/// not count as many batches. Source: Kleinman, J. Am. Stat. Assoc. 68: 46–54, 1973 (from memory).</summary>
/// <param name="Mean">Weighted mean of the batches' fractions.</param>
/// <param name="Correlation">Of two seeds of a batch, 0 (no difference between batches) to 1.</param>
/// <param name="StandardError">Of the mean.</param>
public sealed record PooledGermination(Fraction Mean, double Correlation, double StandardError)
{
    /// <summary>Pools batches.</summary>
    /// <param name="batches">Seeds (1 or more) and germinated (0 to seeds) of each, one or more batches.</param>
    /// <exception cref="InputOutOfRange">No batch, or a count outside its range.</exception>
    public static PooledGermination Of(IReadOnlyList<(int Seeds, int Germinated)> batches)
    {
        InputOutOfRange.Within(batches.Count, 1, 1_000_000, nameof(batches), "batches");
        foreach (var (seeds, germinated) in batches)
        {
            InputOutOfRange.Within(seeds, 1, 100_000_000, nameof(seeds), "seeds");
            InputOutOfRange.Within(germinated, 0, seeds, nameof(germinated), "seeds");
        }

        var correlation = 0d;
        for (var round = 0; round < 50; round++)
        {
            var next = CorrelationOf(batches, correlation);
            if (Math.Abs(next - correlation) < 1e-12)
            {
                break;
            }

            correlation = next;
        }

        var (weights, mean) = Weighted(batches, correlation);
        return new PooledGermination(new Fraction(mean), correlation, Math.Sqrt(mean * (1 - mean) / weights.Sum()));
    }

    /// <summary>95 % interval of the mean, by the normal rule, within 0 to 1.</summary>
    public (Fraction Low, Fraction High) Interval95 =>
        (new(Math.Max(0, Mean.Value - (1.959963984540054 * StandardError))), new(Math.Min(1, Mean.Value + (1.959963984540054 * StandardError))));

    private static (double[] Weights, double Mean) Weighted(IReadOnlyList<(int Seeds, int Germinated)> batches, double correlation)
    {
        // A batch of n seeds counts as n ÷ (1 + (n − 1) ρ) independent ones.
        var weights = batches.Select(batch => batch.Seeds / (1 + ((batch.Seeds - 1) * correlation))).ToArray();
        var mean = batches.Zip(weights, (batch, weight) => weight * batch.Germinated / batch.Seeds).Sum() / weights.Sum();
        return (weights, mean);
    }

    private static double CorrelationOf(IReadOnlyList<(int Seeds, int Germinated)> batches, double correlation)
    {
        var (weights, mean) = Weighted(batches, correlation);
        if (mean is <= 0 or >= 1 || batches.Count == 1)
        {
            return 0;
        }

        var total = weights.Sum();
        var scatter = batches.Zip(weights, (batch, weight) => weight * Square(((double)batch.Germinated / batch.Seeds) - mean)).Sum();
        var expected = batches.Zip(weights, (batch, weight) => weight * (1 - (weight / total)) / batch.Seeds).Sum();
        var gain = batches.Zip(weights, (batch, weight) => weight * (1 - (weight / total)) * (1 - (1d / batch.Seeds))).Sum();
        return gain <= 0 ? 0 : Math.Clamp(((scatter / (mean * (1 - mean))) - expected) / gain, 0, 1);
    }

    private static double Square(double value) => value * value;
}
