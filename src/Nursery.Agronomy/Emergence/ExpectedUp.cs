using MathNet.Numerics.Distributions;
using Nursery.Agronomy.Sowing;

namespace Nursery.Agronomy.Emergence;

/// <summary>What share of the cells should show a plant some days after sowing, before anything is counted. Low takes a slow lot that
/// germinates poorly, high a quick one that germinates well: speed as <see cref="VarietySpeed.BetweenLots"/>, germination as
/// <see cref="SeedPrior"/>, each at its 5 and 95 %; cells as 1 − (1 − F)^k for seeds that do not know of each other.
/// Source: docs/agronomy/emergence.md; the spreads are from memory.</summary>
/// <param name="Low">Share of cells, 0–1.</param>
/// <param name="High">Share of cells, 0–1.</param>
public readonly record struct ExpectedUp(Fraction Low, Fraction High)
{
    /// <summary>Days after sowing for which it says anything.</summary>
    public const int MostDays = 400;

    private const double Tail = 0.05;

    /// <param name="rate">Of the crop by temperature of the mix.</param>
    /// <param name="curve">Of the crop.</param>
    /// <param name="media">The mix on the heat.</param>
    /// <param name="days">Since sowing, 0 or more.</param>
    /// <param name="prior">Chance of a seed.</param>
    /// <param name="seedsPerCell">1–50.</param>
    /// <exception cref="InputOutOfRange">An input outside its range.</exception>
    public static ExpectedUp Of(RateModel rate, EmergenceCurve curve, Temperature media, int days, BetaShape prior, int seedsPerCell)
    {
        InputOutOfRange.Within(days, 0, MostDays, nameof(days), "days");
        InputOutOfRange.Within(seedsPerCell, 1, 50, nameof(seedsPerCell), "seeds");
        var progress = rate.RateAt(media) * days;
        var pace = Math.Exp(Normal.InvCDF(0, VarietySpeed.BetweenLots, 1 - Tail));
        return new ExpectedUp(Cells(Tail, progress / pace), Cells(1 - Tail, progress * pace));

        Fraction Cells(double quantile, double progress)
        {
            var seed = Beta.InvCDF(prior.A, prior.B, quantile) * curve.ShareAt(progress).Value;
            return new Fraction(1 - Math.Pow(1 - seed, seedsPerCell));
        }
    }
}
