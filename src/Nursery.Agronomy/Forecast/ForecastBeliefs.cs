using Nursery.Agronomy.Emergence;

namespace Nursery.Agronomy.Forecast;

/// <summary>What a forecast takes for granted of lots, curves, trays and people before anything is counted. The usual beliefs are the
/// product's; others serve to ask what a forecaster would say who knows more (docs/agronomy/forecast.md).</summary>
internal sealed record ForecastBeliefs
{
    /// <summary>Shapes the curve may have: wider or narrower than the crop's by a factor, or with a share of slow seeds that need 1.4 to 1.7
    /// times as long (from memory, then held against one half of one kind of invented batches). Weights add to one.</summary>
    private static readonly (double Factor, double Slow, double SlowBy, double Weight)[] Shapes =
    [
        (0.5, 0, 1, 0.10), (0.7, 0, 1, 0.12), (1, 0, 1, 0.15), (1.5, 0, 1, 0.08), (0.7, 0.15, 1.4, 0.10), (0.7, 0.3, 1.4, 0.10),
        (0.7, 0.15, 1.7, 0.10), (0.7, 0.3, 1.7, 0.10), (1, 0.2, 1.5, 0.10), (1.2, 0.35, 1.7, 0.05),
    ];

    /// <summary>Curves emergence may follow, as share of the final emergence by progress, with weights that add to one.</summary>
    public required IReadOnlyList<(Func<double, double> Share, double Weight)> Curves { get; init; }

    /// <summary>Standard deviation of ln thermal time: between lots 0.25, and 0.15 for crop table and thermometer (from memory).</summary>
    public double SpeedSpread { get; init; } = Math.Sqrt((VarietySpeed.BetweenLots * VarietySpeed.BetweenLots) + (0.15 * 0.15));

    /// <summary>Real curves are not ours: trays differ and shapes bend. A count of n units weighs as n ÷ (1 + n ρ).</summary>
    public double Overdispersion { get; init; } = 0.010;

    /// <summary>People miscount and seedlings die unseen: variance, and share of what was counted (0.7 and 1 %, from memory).</summary>
    public double MiscountVariance { get; init; } = 0.5;

    public double MiscountShare { get; init; } = 0.01;

    /// <summary>Trays of a batch differ: standard deviation on the logit scale (from memory).</summary>
    public double TrayLogit { get; init; } = 0.2;

    /// <summary>Progress by days since sowing where it is known better than by the question's temperatures.</summary>
    public Func<double, double>? ProgressAt { get; init; }

    /// <summary>Steps of final emergence and of speed in the grid.</summary>
    public (int Fractions, int Speeds) Grid { get; init; } = (40, 27);

    public static ForecastBeliefs Usual(ForecastQuestion question) => new()
    {
        Curves = [.. Shapes.Select(shape => (Shaped(question.Curve, shape.Factor, shape.Slow, shape.SlowBy), shape.Weight))],
    };

    private static Func<double, double> Shaped(EmergenceCurve curve, double factor, double slow, double slowBy)
    {
        var part = new EmergenceCurve(curve.Family, Math.Clamp(curve.Sigma * factor, 0.02, 2));
        return slow == 0 ? part.Share : progress => ((1 - slow) * part.Share(progress)) + (slow * part.Share(progress / slowBy));
    }
}
