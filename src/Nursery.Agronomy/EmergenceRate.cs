namespace Nursery.Agronomy;

/// <summary>How many of the seeds came up, over several batches.</summary>
/// <param name="Batches">Batches counted, 1 or more.</param>
/// <param name="Seeds">Seeds of the counted cells.</param>
/// <param name="Emerged">Seedlings in them; a fraction of a seedling when worked back from cells up.</param>
/// <param name="Fraction">Emerged ÷ seeds, 0–1.</param>
/// <param name="Spread">Standard deviation of the batches' own fractions (n − 1 in the denominator); null for one batch.
/// Source: NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.6.</param>
public sealed record EmergenceRate(int Batches, long Seeds, decimal Emerged, decimal Fraction, double? Spread)
{
    /// <summary>The rate over batches, each counted by its seeds.</summary>
    /// <param name="counts">Seeds of the counted cells (1 or more) and seedlings in them (0 to seeds), one item a batch.</param>
    /// <exception cref="ArgumentException">No batch, or a count outside its range.</exception>
    public static EmergenceRate Of(IReadOnlyCollection<(int Seeds, decimal Emerged)> counts)
    {
        if (counts.Count == 0)
        {
            throw new ArgumentException("a rate needs at least one counted batch", nameof(counts));
        }

        foreach (var (batchSeeds, batchEmerged) in counts)
        {
            if (batchSeeds < 1 || batchEmerged < 0 || batchEmerged > batchSeeds)
            {
                throw new ArgumentException(
                    $"{batchEmerged} of {batchSeeds} seeds: seeds must be 1 or more and seedlings 0 to seeds", nameof(counts));
            }
        }

        var seeds = counts.Sum(count => (long)count.Seeds);
        var emerged = counts.Sum(count => count.Emerged);
        return new EmergenceRate(counts.Count, seeds, emerged, emerged / seeds, SpreadOf(counts));
    }

    private static double? SpreadOf(IReadOnlyCollection<(int Seeds, decimal Emerged)> counts)
    {
        if (counts.Count < 2)
        {
            return null;
        }

        var fractions = counts.Select(count => (double)(count.Emerged / count.Seeds)).ToArray();
        var mean = fractions.Average();
        return Math.Sqrt(fractions.Sum(fraction => (fraction - mean) * (fraction - mean)) / (fractions.Length - 1));
    }
}
