using Nursery.Agronomy.Sowing;

namespace Nursery.Agronomy.Germination;

/// <summary>How far batches lay from what was expected of them, and how much of that to believe.</summary>
/// <param name="Difference">Found less expected, −1 to 1.</param>
/// <param name="Error">Its standard error, above 0.</param>
/// <param name="Batches">1 or more.</param>
public sealed record OwnRecord(double Difference, double Error, int Batches)
{
    /// <summary>Standard deviation between houses of what a cell loses against a laboratory (from memory).</summary>
    public const double BetweenHouses = 0.05;

    /// <summary>Standard deviation between lots of one kind of what they do against their labels (from memory).</summary>
    public const double BetweenLots = 0.05;

    // A fraction of 0 or 1 would claim to be known for certain.
    private const double Edge = 0.02;

    /// <summary>Pools batches of one lot. However few of them agree, batches are taken to differ as those of a usual house do
    /// (<see cref="SeedPrior.UsualSize"/>): so many seeds of one batch do not count as many batches.</summary>
    /// <param name="batches">Seeds (1 or more), germinated (0 to seeds) and the share expected (0–1) of each; one or more batches.</param>
    /// <exception cref="InputOutOfRange">No batch, or a count outside its range.</exception>
    public static OwnRecord Of(IReadOnlyList<(int Seeds, int Germinated, double Expected)> batches)
    {
        var pooled = PooledGermination.Of([.. batches.Select(batch => (batch.Seeds, batch.Germinated))]);
        var weights = batches.Select(batch => batch.Seeds / (1 + ((batch.Seeds - 1) * pooled.Correlation))).ToArray();
        var expected = batches.Zip(weights, (batch, weight) => weight * batch.Expected).Sum() / weights.Sum();
        var middle = Math.Clamp(pooled.Mean.Value, Edge, 1 - Edge);
        var usual = Math.Sqrt(middle * (1 - middle) / batches.Sum(batch => batch.Seeds / (1 + ((batch.Seeds - 1) / (SeedPrior.UsualSize + 1)))));
        return new OwnRecord(pooled.Mean.Value - expected, Math.Max(pooled.StandardError, usual), batches.Count);
    }

    /// <summary>The same record of things that differ among themselves as well.</summary>
    /// <param name="spread">Their standard deviation, 0 or more.</param>
    public OwnRecord With(double spread) => this with { Error = Math.Sqrt((Error * Error) + (spread * spread)) };

    /// <summary>What to believe: the guess moved by the records, each by what it knows. Source: normal mean with known variances, Gelman et al.,
    /// Bayesian Data Analysis, 3rd ed. 2013, 2.5 (from memory).</summary>
    /// <param name="guess">Without any record.</param>
    /// <param name="spread">Standard deviation of the guess, above 0.</param>
    /// <param name="records">None or more.</param>
    public static double Believed(double guess, double spread, IReadOnlyCollection<OwnRecord> records)
    {
        var precision = 1 / (spread * spread);
        var sum = guess * precision;
        foreach (var record in records)
        {
            var weight = 1 / (record.Error * record.Error);
            precision += weight;
            sum += record.Difference * weight;
        }

        return sum / precision;
    }
}
