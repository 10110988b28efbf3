namespace Nursery.Agronomy.Heat;

/// <summary>How the growing mix of a zone differs from its setpoint, as its seeds behave.</summary>
/// <param name="Zone">The zone.</param>
/// <param name="Batches">Batches that spoke.</param>
/// <param name="Celsius">°C to add to the setpoint, with the 90 % interval.</param>
public sealed record ZoneOffset(string Zone, int Batches, Interval Celsius)
{
    /// <summary>With fewer batches the usual offset is kept: one odd lot would speak for the zone (our choice).</summary>
    public const int FewestBatches = 5;

    public bool IsKnown => Batches >= FewestBatches;
}
