using MathNet.Numerics.Distributions;

namespace Nursery.Agronomy.Forecast;

/// <summary>A number of plants as a mixture of normal parts, close ones merged.</summary>
internal sealed class Mixture
{
    private readonly (double Mean, double Sd, double Weight)[] _parts;

    private Mixture((double Mean, double Sd, double Weight)[] parts) => _parts = parts;

    public IReadOnlyList<(double Mean, double Sd, double Weight)> Parts => _parts;

    /// <param name="parts">One or more.</param>
    /// <param name="bins">Parts whose means lie in one of so many equal steps become one.</param>
    public static Mixture Of(ReadOnlySpan<(Moments Moments, double Weight)> parts, int bins)
    {
        var (low, high) = (double.PositiveInfinity, double.NegativeInfinity);
        foreach (var (moments, _) in parts)
        {
            (low, high) = (Math.Min(low, moments.Mean), Math.Max(high, moments.Mean));
        }

        var width = Math.Max(1e-9, (high - low) / bins);
        var merged = new (double Mean, double Second, double Weight)[bins + 1];
        foreach (var (moments, weight) in parts)
        {
            ref var bin = ref merged[(int)((moments.Mean - low) / width)];
            bin.Weight += weight;
            bin.Mean += weight * moments.Mean;
        }

        foreach (var (moments, weight) in parts)
        {
            ref var bin = ref merged[(int)((moments.Mean - low) / width)];
            var off = moments.Mean - (bin.Mean / bin.Weight);
            bin.Second += weight * (moments.Variance + (off * off));
        }

        return new Mixture([.. from bin in merged where bin.Weight > 0 select (bin.Mean / bin.Weight, Math.Sqrt(bin.Second / bin.Weight), bin.Weight)]);
    }

    /// <summary>Of each plant a share is left, the shares being equally likely.</summary>
    public Mixture Thinned(double[] shares) => new([.. _parts.SelectMany(part => shares.Select(share => (
        part.Mean * share, Math.Sqrt((part.Sd * part.Sd * share * share) + (part.Mean * share * (1 - share))), part.Weight / shares.Length)))]);

    public double Below(double value)
    {
        var sum = 0d;
        foreach (var (mean, sd, weight) in _parts)
        {
            sum += weight * (sd < 1e-9 ? (mean < value ? 1 : 0) : Normal.CDF(mean, sd, value));
        }

        return Math.Clamp(sum, 0, 1);
    }

    /// <summary>On average so many are missing to a number when others come beside: E(value − X − Y)⁺, all parts normal.</summary>
    /// <param name="value">Wanted.</param>
    /// <param name="beside">Mean and variance of what comes beside, independent of these.</param>
    public double Missing(double value, Moments beside)
    {
        var sum = 0d;
        foreach (var (mean, sd, weight) in _parts)
        {
            var (open, spread) = (value - mean - beside.Mean, Math.Sqrt((sd * sd) + beside.Variance));
            sum += weight * (spread < 1e-9
                ? Math.Max(0, open)
                : (open * Normal.CDF(0, 1, open / spread)) + (spread * Normal.PDF(0, 1, open / spread)));
        }

        return Math.Max(0, sum);
    }

    /// <summary>P(X + Y &lt; value), Y beside as in <see cref="Missing"/>.</summary>
    public double Below(double value, Moments beside) => Math.Clamp(
        _parts.Sum(part => part.Weight * Normal.CDF(part.Mean + beside.Mean, Math.Max(1e-6, Math.Sqrt((part.Sd * part.Sd) + beside.Variance)), value)), 0, 1);

    /// <summary>Median, 5 % and 95 % points, within 0 and the most there can be.</summary>
    public Interval Interval90(double most) => new(Quantile(0.5, most), Quantile(0.05, most), Quantile(0.95, most));

    private double Quantile(double chance, double most)
    {
        var (low, high) = (0d, most);
        for (var step = 0; step < 40 && high - low > Math.Max(0.01, 2e-4 * most); step++)
        {
            var middle = (low + high) / 2;
            (low, high) = Below(middle) < chance ? (middle, high) : (low, middle);
        }

        return (low + high) / 2;
    }
}
