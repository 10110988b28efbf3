namespace Nursery.Domain.Benches;

public enum BenchKind
{
    /// <summary>With heat zones: temperature is checked before trays are reserved here.</summary>
    Germination,
    Growing,
    Hardening,
}
