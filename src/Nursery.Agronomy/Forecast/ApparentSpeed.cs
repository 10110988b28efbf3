namespace Nursery.Agronomy.Forecast;

/// <summary>How much slower a batch came up than its crop at the temperatures told, by its counts alone. What is left when the spread
/// between lots, which the forecast starts from, is taken out again: 1/e² = 1/s² − 1/s₀² (normal prior and posterior; Gelman et al.,
/// Bayesian Data Analysis, 3rd ed. 2013, 2.5, from memory).</summary>
/// <param name="LogSlower">ln(thermal time found ÷ thermal time of the crop); above 0 is slower.</param>
/// <param name="Error">Its standard error, by the counts.</param>
public sealed record ApparentSpeed(double LogSlower, double Error)
{
    /// <summary>The counts say next to nothing where they take less than this share off the prior's variance.</summary>
    private const double LeastSaid = 0.2;

    /// <summary>Null where the counts say too little of when seed came up: none up yet, or all up at the first look.</summary>
    /// <exception cref="InputOutOfRange">An input of the question outside its range.</exception>
    public static ApparentSpeed? Of(ForecastQuestion question)
    {
        question.Check();
        if (question.Counts.Count == 0)
        {
            return null;
        }

        var beliefs = ForecastBeliefs.Usual(question);
        var posterior = ForecastPosterior.Of(question, beliefs);
        var mean = posterior.Cells.Sum(cell => cell.Weight * Math.Log(cell.Slower));
        var variance = posterior.Cells.Sum(cell => cell.Weight * Math.Pow(Math.Log(cell.Slower) - mean, 2));
        var prior = beliefs.SpeedSpread * beliefs.SpeedSpread;
        if (variance > (1 - LeastSaid) * prior)
        {
            return null;
        }

        // No finer than the grid's own step.
        var known = Math.Max(variance, posterior.SpeedStep * posterior.SpeedStep / 12);
        var counts = 1 / ((1 / known) - (1 / prior));
        return new ApparentSpeed(mean * counts / known, Math.Sqrt(counts));
    }
}
