using MathNet.Numerics.Distributions;
using Nursery.Agronomy.Forecast;

namespace Nursery.Agronomy.Tests.Forecast;

/// <summary>A forecast of final emergence held against the truth: whether nine in ten hold it, and the continuous ranked probability score
/// of the whole forecast, as a share of the seeds; smaller is better.</summary>
internal readonly record struct ForecastScore(bool Within, bool StandWithin, double Crps)
{
    public static ForecastScore Of(ForecastQuestion question, ForecastBeliefs beliefs, double finalFraction, int? finalStand = null)
    {
        var stands = new StandPrediction(question, ForecastPosterior.Of(question, beliefs), beliefs);
        var (final, stand) = (stands.FinalFraction(), stands.Stand());
        return new ForecastScore(
            finalFraction >= final.Low - 1e-9 && finalFraction <= final.High + 1e-9,
            finalStand is not { } up || (up >= stand.Low && up <= stand.High),
            CrpsOf(stands.Emerged.Parts, finalFraction * question.Seeds) / question.Seeds);
    }

    /// <summary>Of a mixture of normal parts in closed form. Source: Grimit, Gneiting, Berrocal &amp; Johnson, Q. J. R. Meteorol. Soc. 132:
    /// 2925–2942, 2006 (from memory; checked against an integral).</summary>
    public static double CrpsOf(IReadOnlyList<(double Mean, double Sd, double Weight)> parts, double truth)
    {
        var sum = 0d;
        foreach (var (mean, sd, weight) in parts)
        {
            sum += weight * Distance(truth - mean, sd);
            foreach (var other in parts)
            {
                sum -= weight * other.Weight * Distance(mean - other.Mean, Math.Sqrt((sd * sd) + (other.Sd * other.Sd))) / 2;
            }
        }

        return sum;
    }

    /// <summary>Mean absolute value of a normal number.</summary>
    private static double Distance(double mean, double sd) => sd < 1e-9
        ? Math.Abs(mean)
        : (2 * sd * Normal.PDF(0, 1, mean / sd)) + (mean * ((2 * Normal.CDF(0, 1, mean / sd)) - 1));
}
