namespace Nursery.Benchmarks.Plans;

/// <summary>A size that is measured, and its bars.</summary>
/// <param name="Steps">Take about the seconds of the bar with nothing beside them.</param>
/// <param name="Whole">The bound counts whole zones.</param>
/// <param name="MedianToBound">Cost ÷ bound, at most, in the middle of the seeds; the next one is for each.</param>
internal sealed record PlanSize(
    string Name, long Steps, bool Whole, double MedianToBound, double WorstToBound, double PositionedToBound, double ToFirstFit)
{
    public static PlanSize Of(string name) => name switch
    {
        "S" => new("S", 4_000_000, Whole: true, 1.05, 1.10, 1.15, 0.25),
        "M" => new("M", 800_000, Whole: false, 1.65, 2.3, 1.9, 0.15),
        "L" => new("L", 3_300_000, Whole: false, 1.35, 1.35, 1.7, 0.10),
        "XL" => new("XL", 1_500_000, Whole: false, 1.75, 1.75, double.PositiveInfinity, 0.10),
        _ => throw new ArgumentException($"--size: \"{name}\" is not allowed; S, M, L or XL is."),
    };
}
