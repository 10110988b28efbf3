namespace Nursery.Agronomy.Emergence;

/// <summary>How much slower or faster than its crop a variety is, from its own batches: ln thermal time moves from the crop's default by
/// normal shrinkage. Source: normal mean with known variances, Gelman et al., Bayesian Data Analysis, 3rd ed. 2013, 2.5 (from memory).</summary>
public static class VarietySpeed
{
    /// <summary>Standard deviation of ln thermal time between lots of a crop (from memory).</summary>
    public const double BetweenLots = 0.25;

    /// <summary>Where primed seed starts (from memory).</summary>
    public const double Primed = -0.2;

    /// <summary>Factor on the crop's thermal time.</summary>
    /// <param name="batches">For each batch: ln(days to half found ÷ days to half expected), −3 to 3, and its standard error, above 0, to 3.</param>
    /// <param name="isPrimed">Primed seed starts faster.</param>
    /// <returns>The factor with its standard error of the logarithm.</returns>
    public static (double Factor, double LogError) Of(IReadOnlyList<(double LogRatio, double Error)> batches, bool isPrimed = false)
    {
        var precision = 1 / (BetweenLots * BetweenLots);
        var sum = precision * (isPrimed ? Primed : 0);
        foreach (var (ratio, error) in batches)
        {
            InputOutOfRange.Within(ratio, -3, 3, "logRatio", "");
            InputOutOfRange.Above(error, 0, 3, nameof(error), "");
            precision += 1 / (error * error);
            sum += ratio / (error * error);
        }

        return (Math.Exp(sum / precision), Math.Sqrt(1 / precision));
    }
}
