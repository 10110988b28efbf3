using MathNet.Numerics.Distributions;

namespace Nursery.Agronomy.Emergence;

/// <summary>Which share of the final emergence is up at a progress x, where x = 1 is half. Log-logistic 1 ÷ (1 + x^(−1/s)) or
/// log-normal Φ(ln x ÷ σ). σ is the standard deviation of ln x in both, so s = σ√3 ÷ π.
/// Source: NIST/SEMATECH e-Handbook of Statistical Methods, 8.1.6.4 (log-normal); log-logistic, Johnson, Kotz &amp; Balakrishnan,
/// Continuous Univariate Distributions 2, 1995, ch. 23 (from memory).</summary>
public sealed record EmergenceCurve
{
    /// <summary>σ of quick crops; ten published samples of daily counts give 0.12 to 0.25 (docs/agronomy/emergence.md).</summary>
    public const double QuickSigma = 0.20;

    /// <summary>From memory.</summary>
    public const double SlowSigma = 0.30;

    /// <summary>From memory.</summary>
    public const double UnknownSigma = 0.45;

    private readonly double _scale;

    /// <param name="family">Which curve.</param>
    /// <param name="sigma">0.02 to 2.</param>
    /// <exception cref="InputOutOfRange">σ outside its range.</exception>
    public EmergenceCurve(SpreadFamily family, double sigma)
    {
        (Family, Sigma) = (family, InputOutOfRange.Within(sigma, 0.02, 2, nameof(sigma), ""));
        _scale = sigma * Math.Sqrt(3) / Math.PI;
    }

    public SpreadFamily Family { get; }

    public double Sigma { get; }

    /// <summary>Share of the final emergence that is up.</summary>
    /// <param name="progress">0 or more; 1 is half up.</param>
    public Fraction ShareAt(double progress) =>
        new(Share(InputOutOfRange.Within(progress, 0, double.PositiveInfinity, nameof(progress), "")));

    /// <summary>Progress at which a share is up; the planner moves trays off heat at the crop's own share.</summary>
    /// <param name="share">Above 0, below 1.</param>
    /// <exception cref="InputOutOfRange">0 or 1.</exception>
    public double ProgressTo(Fraction share)
    {
        var value = share.Value is > 0 and < 1
            ? share.Value
            : throw InputOutOfRange.Of(share.Value, nameof(share), "", "above 0, below 1");
        return Family == SpreadFamily.LogLogistic
            ? Math.Pow(value / (1 - value), _scale)
            : Math.Exp(Sigma * Normal.InvCDF(0, 1, value));
    }

    internal double Share(double progress) => progress <= 0
        ? 0
        : Family == SpreadFamily.LogLogistic
            ? 1 / (1 + Math.Exp(-Math.Log(progress) / _scale))
            : Normal.CDF(0, 1, Math.Log(progress) / Sigma);
}
