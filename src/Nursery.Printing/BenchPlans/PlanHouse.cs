namespace Nursery.Printing.BenchPlans;

/// <summary>A house on a day.</summary>
/// <param name="Day">Such as "24 November 2026".</param>
/// <param name="Free">Such as "112 of 240 spaces are free".</param>
public sealed record PlanHouse(
    string Name, string Day, string Free, int LengthCm, int WidthCm, IReadOnlyList<PlanBench> Benches);
