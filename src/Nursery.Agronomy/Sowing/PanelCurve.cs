using MathNet.Numerics.Integration;

namespace Nursery.Agronomy.Sowing;

/// <summary>A smooth curve over an interval, held as polynomials through Gauss–Legendre points of short panels (barycentric interpolation:
/// Berrut &amp; Trefethen, SIAM Review 46: 501–517, 2004). Computed once, it is then cheap to ask and to integrate over.</summary>
internal sealed class PanelCurve
{
    /// <summary>Points a panel; enough for 1e-10 where a panel spans four standard deviations.</summary>
    public const int Points = 20;

    // The rule copies its arrays whenever it is asked for them.
    private static readonly double[] Abscissas = new GaussLegendreRule(-1, 1, Points).Abscissas;
    private static readonly double[] Weights = new GaussLegendreRule(-1, 1, Points).Weights;
    private static readonly double[] Barycentric = BarycentricWeights();

    private readonly double[] _edges;
    private readonly double[] _values;

    public PanelCurve(double[] edges, Func<double, double> of)
    {
        _edges = edges;
        _values = new double[(edges.Length - 1) * Points];
        for (var panel = 0; panel + 1 < edges.Length; panel++)
        {
            for (var point = 0; point < Points; point++)
            {
                _values[(panel * Points) + point] = of(At(edges[panel], edges[panel + 1], point));
            }
        }
    }

    public IReadOnlyList<double> Edges => _edges;

    public double Low => _edges[0];

    public double High => _edges[^1];

    /// <summary>Where a point of the rule lies between two ends, and its weight there.</summary>
    public static double At(double from, double to, int point) => ((from + to) / 2) + ((to - from) / 2 * Abscissas[point]);

    public static double Weight(double from, double to, int point) => (to - from) / 2 * Weights[point];

    /// <summary>The curve in a panel.</summary>
    public double At(double x, int panel)
    {
        var (from, to) = (_edges[panel], _edges[panel + 1]);
        var unit = ((2 * x) - from - to) / (to - from);
        var (top, bottom) = (0d, 0d);
        var offset = panel * Points;
        for (var point = 0; point < Points; point++)
        {
            var distance = unit - Abscissas[point];
            if (distance == 0)
            {
                return _values[offset + point];
            }

            var weight = Barycentric[point] / distance;
            top += weight * _values[offset + point];
            bottom += weight;
        }

        return top / bottom;
    }

    /// <summary>The curve anywhere inside.</summary>
    public double At(double x)
    {
        var panel = Array.BinarySearch(_edges, x);
        panel = panel < 0 ? ~panel - 1 : panel;
        return At(x, Math.Clamp(panel, 0, _edges.Length - 2));
    }

    /// <summary>Panels of equal width, and ever shorter ones at an end where the curve has no slope or an infinite one.</summary>
    public static double[] EdgesOf(double low, double high, int panels, bool gradeLow, bool gradeHigh)
    {
        var edges = Enumerable.Range(0, panels + 1).Select(index => low + ((high - low) * index / panels)).ToList();
        edges[^1] = high;
        var width = (high - low) / panels;
        for (var halving = 1; halving <= 6; halving++)
        {
            var step = width * Math.Pow(4, -halving);
            if (gradeLow)
            {
                edges.Add(low + step);
            }

            if (gradeHigh)
            {
                edges.Add(high - step);
            }
        }

        return [.. edges.Distinct().Order()];
    }

    private static double[] BarycentricWeights()
    {
        // For Gauss–Legendre points: (−1)^j √((1 − x²) w), Wang & Xiang 2012.
        return [.. Enumerable.Range(0, Points).Select(point =>
            (point % 2 == 0 ? 1 : -1) * Math.Sqrt((1 - (Abscissas[point] * Abscissas[point])) * Weights[point]))];
    }
}
