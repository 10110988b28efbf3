namespace Nursery.Agronomy;

/// <summary>A value with the interval it lies in.</summary>
/// <param name="Median">As likely below as above.</param>
/// <param name="Low">Lower end.</param>
/// <param name="High">Upper end.</param>
public readonly record struct Interval(double Median, double Low, double High);
