namespace Nursery.Domain.Benches;

/// <summary>Whether a house part is run for warm crops or for cool ones.</summary>
public enum Band
{
    Warm,
    Cool,
}
