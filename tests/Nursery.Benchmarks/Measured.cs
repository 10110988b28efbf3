using System.Globalization;

namespace Nursery.Benchmarks;

/// <summary>What one benchmark found. The ratio means something on any machine, the times on this one.</summary>
internal sealed record Measured(string Name, string What, TimeSpan Ours, TimeSpan Baseline, string BaselineIs, string Bar, bool Met)
{
    public double Ratio => Ours / Baseline;

    /// <summary>A row of the table in docs/benchmarks.md.</summary>
    public string Row => string.Create(
        CultureInfo.InvariantCulture,
        $"| {What} | {Ours.TotalMilliseconds:0.0} ms | {BaselineIs}: {Baseline.TotalMilliseconds:0.0} ms | {Ratio:0.00} | {Bar} | {(Met ? "met" : "**missed**")} |");
}
