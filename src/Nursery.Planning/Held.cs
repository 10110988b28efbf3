namespace Nursery.Planning;

/// <summary>Spaces of a bench held from a day to the first day no longer held.</summary>
public sealed record Held(Guid BenchId, int FirstSpace, int Spaces, DateOnly From, DateOnly To)
{
    public bool Covers(DateOnly from, DateOnly to) => From < to && from < To;
}
