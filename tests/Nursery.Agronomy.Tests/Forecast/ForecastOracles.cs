using Nursery.Agronomy.Emergence;
using Nursery.Agronomy.Forecast;

namespace Nursery.Agronomy.Tests.Forecast;

/// <summary>Forecasters who see the same counts as ours but know more: the same machine with other beliefs.</summary>
internal static class ForecastOracles
{
    /// <summary>Knows the curve, the speed and the temperatures of this very batch; only its chance of a seed is as unknown as to us.</summary>
    public static ForecastBeliefs OfTheBatch(Func<double, double> curve, Func<double, double> progressAt) =>
        new() { Curves = [(curve, 1)], ProgressAt = progressAt, SpeedSpread = 0, Overdispersion = 0, Grid = (400, 1) };

    /// <summary>Knows how all batches are drawn (curves, spread of speed, temperatures), but not what was drawn for this one.</summary>
    public static ForecastBeliefs OfTheGenerator(IReadOnlyList<(Func<double, double> Share, double Weight)> curves, double speedSpread, Func<double, double>? progressAt) =>
        new() { Curves = curves, ProgressAt = progressAt, SpeedSpread = speedSpread, Overdispersion = 0, Grid = (40, 33) };

    /// <summary>The prior of someone who knows the chance of a seed.</summary>
    public static BetaShape Sure(double chance) => BetaShape.Of(new Fraction(chance), 200_000);

    /// <summary>As <see cref="BatchTruth"/> draws them: each tray one of two curves, lots 0.25 apart.</summary>
    public static ForecastBeliefs Generator(BatchTruth truth, ForecastQuestion question)
    {
        var trays = question.Counts.Count == 0 ? truth.Trays : Math.Max(1, question.Counts[^1].Cells / 72);
        var curves = Enumerable.Range(0, trays + 1).Select(late => (
            (Func<double, double>)(at => at <= 0 ? 0 : ((late * BatchTruth.ShareOf(true, at)) + ((trays - late) * BatchTruth.ShareOf(false, at))) / trays),
            Math.Exp(MathNet.Numerics.SpecialFunctions.BinomialLn(trays, late)) * Math.Pow(0.5, trays))).ToList();
        return OfTheGenerator(curves, VarietySpeed.BetweenLots, null);
    }
}
