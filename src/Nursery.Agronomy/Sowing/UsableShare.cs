using MathNet.Numerics;

namespace Nursery.Agronomy.Sowing;

/// <summary>The share Y of cells that give a usable plant, which differs from batch to batch: cells filled at this batch's p, times what
/// survives. Of n cells Bin(n, Y) are usable, and P(Bin(n, Y) ≥ w) = P(Y ≥ V) with V ~ Beta(w, n − w + 1): one integral over V's
/// density with Y's tail computed once, by Gauss–Legendre to 1e-9.</summary>
internal sealed class UsableShare
{
    private const double Tail = 1e-14;
    private const int Panels = 5;

    /// <summary>Standard deviations a piece of an integral spans.</summary>
    private const double PieceSpreads = 3.5;
    private const int MostPieces = 40;

    /// <summary>Below this a power at an end has too few slopes for long panels.</summary>
    private const double Rough = 4;

    /// <summary>P(X &gt; x), X being p where nothing dies (then Y = fill(p)), else Y itself.</summary>
    private readonly PanelCurve _over;
    private readonly CellFill? _fill;

    private UsableShare(PanelCurve over, CellFill? fill) => (_over, _fill) = (over, fill);

    public static UsableShare Of(PanelCurve prior, BetaShape shape, PanelCurve? survival, BetaShape? survives, CellFill fill) =>
        survival is null ? new UsableShare(prior, fill) : new UsableShare(Product(prior, shape, survival, survives!.Value, fill), null);

    /// <summary>P(X &gt; x) of a beta distribution where it is neither 1 nor 0.</summary>
    public static PanelCurve Over(BetaShape shape)
    {
        var low = EndWhere(x => SpecialFunctions.BetaRegularized(shape.A, shape.B, x));
        var high = 1 - EndWhere(x => SpecialFunctions.BetaRegularized(shape.B, shape.A, x));
        return new PanelCurve(
            PanelCurve.EdgesOf(low, high, Panels, shape.A < Rough, shape.B < Rough), x => SpecialFunctions.BetaRegularized(shape.B, shape.A, 1 - x));
    }

    /// <summary>P(at least w of n cells give a usable plant), 0 to 1.</summary>
    public double Chance(int cells, int wanted)
    {
        if (wanted <= 0 || cells < wanted)
        {
            return wanted <= 0 ? 1 : 0;
        }

        var v = BetaShape.OfCounts(wanted, cells - wanted + 1d);
        var chance = SpecialFunctions.BetaRegularized(v.A, v.B, ShareAt(_over.Low));
        var from = Math.Max(_over.Low, PlaceOf(v.Mean - ((8 + (30 / Math.Sqrt(v.B))) * v.Spread)));
        var to = Math.Min(_over.High, PlaceOf(v.Mean + ((8 + (30 / Math.Sqrt(v.A))) * v.Spread)));
        if (from >= to)
        {
            return Math.Clamp(chance, 0, 1);
        }

        var scale = Scale(v);
        var most = PieceSpreads * v.Spread / SlopeAt(Math.Clamp(PlaceOf(v.Mean), from, to));
        for (var panel = 0; panel + 1 < _over.Edges.Count; panel++)
        {
            var (start, end) = (Math.Max(from, _over.Edges[panel]), Math.Min(to, _over.Edges[panel + 1]));
            var pieces = start < end ? (int)Math.Clamp(Math.Ceiling((end - start) / most), 1, MostPieces) : 0;
            for (var piece = 0; piece < pieces; piece++)
            {
                chance += Piece(start + ((end - start) * piece / pieces), start + ((end - start) * (piece + 1) / pieces), panel, v, scale);
            }
        }

        return Math.Clamp(chance, 0, 1);
    }

    private double Piece(double from, double to, int panel, BetaShape v, double scale)
    {
        var sum = 0d;
        for (var point = 0; point < PanelCurve.Points; point++)
        {
            var x = PanelCurve.At(from, to, point);
            var (share, slope) = _fill?.WithSlope(x) ?? (x, 1);
            if (share is > 0 and < 1)
            {
                sum += PanelCurve.Weight(from, to, point) * _over.At(x, panel) * Density(v, scale, share) * slope;
            }
        }

        return sum;
    }

    private double ShareAt(double x) => Math.Clamp(_fill?.At(x) ?? x, 0, 1);

    private double SlopeAt(double x) => Math.Max(1e-6, _fill?.WithSlope(x).Slope ?? 1);

    private double PlaceOf(double share) => share <= 0 ? 0 : share >= 1 ? 1 : _fill?.Inverse(share) ?? share;

    /// <summary>P(fill(p) · s &gt; y), integrated over the p that can reach y.</summary>
    private static PanelCurve Product(PanelCurve prior, BetaShape shape, PanelCurve survival, BetaShape survives, CellFill fill)
    {
        var scale = Scale(shape);
        var filled = fill.WithSlope(shape.Mean);
        var width = PieceSpreads * Math.Min(shape.Spread, survives.Spread * filled.Value / Math.Max(0.05, filled.Slope));
        double Over(double y)
        {
            var from = Math.Max(prior.Low, fill.Inverse(Math.Min(1, y / survival.High)));
            if (from >= prior.High)
            {
                return 0;
            }

            var pieces = (int)Math.Clamp(Math.Ceiling((prior.High - from) / width), 1, MostPieces);
            var edges = PanelCurve.EdgesOf(from, prior.High, pieces, shape.A < 1 && from == 0, shape.B < 1);
            var sum = 0d;
            for (var piece = 0; piece + 1 < edges.Length; piece++)
            {
                for (var point = 0; point < PanelCurve.Points; point++)
                {
                    var p = PanelCurve.At(edges[piece], edges[piece + 1], point);
                    var needed = y / fill.At(p);
                    var survivors = needed >= survival.High ? 0 : needed <= survival.Low ? 1 : survival.At(needed);
                    sum += PanelCurve.Weight(edges[piece], edges[piece + 1], point) * Density(shape, scale, p) * survivors;
                }
            }

            return Math.Min(1, sum);
        }

        var (low, high) = (fill.At(prior.Low) * survival.Low, fill.At(prior.High) * survival.High);
        return new PanelCurve(PanelCurve.EdgesOf(low, high, Panels, shape.A < Rough, shape.B + survives.B < Rough), Over);
    }

    private static double Scale(BetaShape shape) =>
        SpecialFunctions.GammaLn(shape.A + shape.B) - SpecialFunctions.GammaLn(shape.A) - SpecialFunctions.GammaLn(shape.B);

    private static double Density(BetaShape shape, double scale, double x) =>
        Math.Exp(scale + ((shape.A - 1) * Math.Log(x)) + ((shape.B - 1) * Math.Log(1 - x)));

    /// <summary>The largest x at which a rising chance is still nothing.</summary>
    private static double EndWhere(Func<double, double> chance)
    {
        var (low, high) = (0d, 1d);
        for (var step = 0; step < 25; step++)
        {
            var middle = (low + high) / 2;
            (low, high) = chance(middle) < Tail ? (middle, high) : (low, middle);
        }

        return low < 1e-11 ? 0 : low;
    }
}
