namespace Nursery.Printing.BenchPlans;

/// <summary>Trays on a bench.</summary>
/// <param name="Trays">Such as "12 trays".</param>
/// <param name="FirstSpace">Null when nobody said where on the bench: they stand in the list only.</param>
public sealed record PlanTrays(string Code, string Variety, string Trays, int? FirstSpace, int Spaces, StagePattern Stage);
