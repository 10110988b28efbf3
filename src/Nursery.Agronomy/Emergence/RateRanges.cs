namespace Nursery.Agronomy.Emergence;

/// <summary>90 % intervals of a fitted rate's parameters: °C, and °C·days for the thermal time. Two to five temperatures do not fix four
/// parameters, so they are wide.</summary>
public sealed record RateRanges(
    (double Low, double High) BaseC, (double Low, double High) ThermalTime, (double Low, double High) OptimumC, (double Low, double High) CeilingC);
