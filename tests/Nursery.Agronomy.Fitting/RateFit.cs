namespace Nursery.Agronomy.Fitting;

/// <summary>The rate model of one crop: parameters most likely with the prior, and 90 % intervals.</summary>
public sealed record RateFit(double Base, double ThermalTime, double Optimum, double Ceiling)
{
    public (double Low, double High) BaseRange { get; init; }

    public (double Low, double High) ThermalTimeRange { get; init; }

    public (double Low, double High) OptimumRange { get; init; }

    public (double Low, double High) CeilingRange { get; init; }

    /// <summary>Days to half up; null where nothing comes.</summary>
    public double? DaysAt(double celsius) => RateSearch.Shape(celsius, Base, Optimum, Ceiling) is > 0 and var shape ? ThermalTime / shape : null;
}
