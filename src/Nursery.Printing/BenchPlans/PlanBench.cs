namespace Nursery.Printing.BenchPlans;

/// <summary>A bench with its place in the house, in cm. Spaces run down the rows, then along the bench.</summary>
public sealed record PlanBench(
    string Code,
    int XCm,
    int YCm,
    int LengthCm,
    int WidthCm,
    int Capacity,
    int Rows,
    IReadOnlyList<PlanZone> Zones,
    IReadOnlyList<PlanTrays> Trays);
