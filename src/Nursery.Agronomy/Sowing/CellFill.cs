namespace Nursery.Agronomy.Sowing;

/// <summary>Chance that a cell is filled, as a function of the chance p of one seed: at least so many of k seeds up. Seeds of one cell may
/// share their fate: with correlation ρ their number is beta-binomial (Johnson, Kemp &amp; Kotz, Univariate Discrete Distributions,
/// 3rd ed. 2005, 6.2.2, from memory), which is a polynomial of degree k in p.</summary>
internal sealed class CellFill
{
    private readonly int _seeds;
    private readonly int _least;
    private readonly double _correlation;
    private readonly double[] _ways;

    public CellFill(int seeds, int least, double correlation)
    {
        (_seeds, _least, _correlation) = (seeds, least, correlation);
        _ways = [.. Enumerable.Range(0, seeds + 1).Select(count => MathNet.Numerics.SpecialFunctions.Binomial(seeds, count))];
    }

    /// <summary>P(least or more of k).</summary>
    public double At(double p) => WithSlope(p).Value;

    /// <summary>The chance and its slope by p.</summary>
    public (double Value, double Slope) WithSlope(double p)
    {
        if (_seeds == 1)
        {
            return (p, 1);
        }

        if (_correlation == 0 && _least == 1)
        {
            var empty = 1d;
            for (var seed = 1; seed < _seeds; seed++)
            {
                empty *= 1 - p;
            }

            return (1 - (empty * (1 - p)), _seeds * empty);
        }

        // Fewer than the least, which is the shorter sum for every clump.
        var (value, slope) = (0d, 0d);
        for (var count = 0; count < _least; count++)
        {
            var (term, change) = Exactly(count, p);
            value += term;
            slope += change;
        }

        return (1 - value, -slope);
    }

    /// <summary>The p at which a cell is filled with a chance.</summary>
    public double Inverse(double chance)
    {
        if (_seeds == 1)
        {
            return chance;
        }

        if (_correlation == 0 && _least == 1)
        {
            return 1 - Math.Pow(1 - chance, 1d / _seeds);
        }

        var (low, high) = (0d, 1d);
        while (high - low > 1e-15 && (low + high) / 2 is var middle && middle > low && middle < high)
        {
            (low, high) = At(middle) < chance ? (middle, high) : (low, middle);
        }

        return (low + high) / 2;
    }

    private (double Value, double Slope) Exactly(int count, double p)
    {
        var (value, slope) = (_ways[count], 0d);
        for (var seed = 0; seed < _seeds; seed++)
        {
            var isUp = seed < count;
            var others = isUp ? seed : seed - count;
            var down = 1 + ((_seeds - 1 - seed) * _correlation / (1 - _correlation));
            var factor = ((isUp ? p : 1 - p) + (others * _correlation / (1 - _correlation))) / down;
            slope = (slope * factor) + (value * (isUp ? 1 : -1) / down);
            value *= factor;
        }

        return (value, slope);
    }
}
