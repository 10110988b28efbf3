namespace Nursery.Agronomy.Forecast;

/// <summary>What the own finished batches say of the next one's seed, in place of the usual house factor and spread: how far a house's lots
/// stay below their label and differ in that, and how a lot did that was sown before. Shrinkage to the usual values by normal means with known
/// variances, Gelman et al., Bayesian Data Analysis, 3rd ed. 2013, 2.5 (from memory).</summary>
public static class SeedRecord
{
    /// <summary>a + b of batches of one lot: standard deviation 3 points at 85 % (from memory).</summary>
    public const double WithinLotSize = 140;

    /// <summary>A lot so many points off what its house is used to is a bad one, and says nothing of the house (from memory).</summary>
    private const double BadLotPoints = 15;

    /// <summary>The usual values count as so many lots (from memory).</summary>
    private const double UsualLots = 3;
    private const double SmallestSize = 12;
    private const double LargestSize = 400;

    /// <summary>House points (found − label) and a + b of a house from its lots.</summary>
    /// <param name="lots">For each lot its label and what came up of it, 0 to 1 each; any number.</param>
    /// <param name="usualPoints">Where nothing is known, points.</param>
    /// <param name="usualSize">Where nothing is known, a + b, 2 to 10,000.</param>
    /// <exception cref="InputOutOfRange">An input outside its range.</exception>
    public static (double Points, double Size) House(IReadOnlyList<(Fraction Label, Fraction Found)> lots, double usualPoints, double usualSize)
    {
        InputOutOfRange.Within(usualPoints, -60, 20, nameof(usualPoints), "points");
        InputOutOfRange.Within(usualSize, 2, 10_000, nameof(usualSize), "");
        var off = lots.Select(lot => 100 * (lot.Found.Value - lot.Label.Value)).ToList();
        var middle = off.Append(usualPoints).Order().ElementAt(off.Count / 2);
        var kept = lots.Zip(off).Where(pair => Math.Abs(pair.Second - middle) <= BadLotPoints).ToList();
        var points = ((UsualLots * usualPoints) + kept.Sum(pair => pair.Second)) / (UsualLots + kept.Count);
        var mean = Math.Clamp(kept.Count == 0 ? 0.85 : kept.Average(pair => pair.First.Found.Value), 0.05, 0.95);
        var usual = mean * (1 - mean) / (usualSize + 1);
        var variance = ((UsualLots * usual) + kept.Sum(pair => (pair.Second - points) * (pair.Second - points) / 10_000)) / (UsualLots + kept.Count);
        return (points, Math.Clamp((mean * (1 - mean) / variance) - 1, SmallestSize, LargestSize));
    }

    /// <summary>The chance of a seed of a lot that was sown before.</summary>
    /// <param name="prior">What would be expected of it without its record.</param>
    /// <param name="batches">Finished batches of the lot: seeds looked at, 1 or more, and what came up, 0 to 1.</param>
    /// <exception cref="InputOutOfRange">An input outside its range.</exception>
    public static BetaShape Lot(BetaShape prior, IReadOnlyList<(long Seeds, Fraction Found)> batches)
    {
        if (batches.Count == 0)
        {
            return prior;
        }

        // A batch of n seeds tells of its lot as n ÷ (1 + n ÷ within-lot size) of them do.
        var (a, b) = (prior.A, prior.B);
        foreach (var (seeds, found) in batches)
        {
            var worth = InputOutOfRange.Within(seeds, 1, 1e9, nameof(seeds), "seeds");
            worth /= 1 + (worth / WithinLotSize);
            (a, b) = (a + (worth * found.Value), b + (worth * (1 - found.Value)));
        }

        var lot = new BetaShape(Math.Min(a, 1e6), Math.Min(b, 1e6));
        var variance = (lot.Spread * lot.Spread) + (lot.Mean * (1 - lot.Mean) / (WithinLotSize + 1));
        return BetaShape.Of(new Fraction(lot.Mean), Math.Max(2, (lot.Mean * (1 - lot.Mean) / variance) - 1));
    }
}
