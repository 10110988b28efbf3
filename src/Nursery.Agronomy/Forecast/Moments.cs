namespace Nursery.Agronomy.Forecast;

/// <summary>Mean and variance of a number of plants.</summary>
internal readonly record struct Moments(double Mean, double Variance)
{
    /// <summary>The sum of two independent numbers.</summary>
    public Moments And(Moments other) => new(Mean + other.Mean, Variance + other.Variance);
}
