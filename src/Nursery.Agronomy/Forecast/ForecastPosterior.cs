using MathNet.Numerics;
using Nursery.Agronomy.Emergence;

namespace Nursery.Agronomy.Forecast;

/// <summary>What the counts say of final emergence G, speed and spread, on a fixed grid. Source of the method: grid approximation, Gelman et
/// al., Bayesian Data Analysis, 3rd ed. 2013, 10.1 (from memory).</summary>
internal sealed class ForecastPosterior
{
    /// <summary>Standard deviation of ln thermal time: between lots 0.25, and 0.15 for crop table and thermometer (from memory).</summary>
    internal static readonly double SpeedSpread = Math.Sqrt((VarietySpeed.BetweenLots * VarietySpeed.BetweenLots) + (0.15 * 0.15));

    /// <summary>Real curves are not ours: trays differ and shapes bend. A count of n units weighs as n ÷ (1 + n ρ).</summary>
    private const double Overdispersion = 0.010;
    private const int Fractions = 40;
    private const int Speeds = 27;
    private const double SpeedReach = 3;

    /// <summary>Of ln thermal time, from one speed of the grid to the next.</summary>
    internal static double SpeedStep => 2 * SpeedReach * SpeedSpread / (Speeds - 1);

    /// <summary>Shapes the curve may have: wider or narrower, or with a share of slow seeds that need 1.7 times as long (from memory). Weights
    /// add to one.</summary>
    private static readonly (double Factor, double Slow, double Weight)[] Shapes =
        [(0.7, 0, 0.2), (1, 0, 0.25), (1.5, 0, 0.15), (0.7, 0.2, 0.15), (0.7, 0.35, 0.15), (1.2, 0.35, 0.1)];

    private const double SlowBy = 1.7;

    private ForecastPosterior(CountChain chain, IReadOnlyList<Cell> cells) => (Chain, Cells) = (chain, cells);

    public CountChain Chain { get; }

    public IReadOnlyList<Cell> Cells { get; }

    public static ForecastPosterior Of(ForecastQuestion question)
    {
        var chain = CountChain.Of(question);
        var fractions = FractionGrid(question.Prior);
        var days = chain.Links.Select(link => question.Temperatures.ProgressAt(question.Rate, link.Day)).ToArray();
        var froms = chain.Links.Select(link => link.From is { } from ? question.Temperatures.ProgressAt(question.Rate, from) : 0).ToArray();
        var cells = new List<Cell>(fractions.Length * Speeds * Shapes.Length);
        var (shares, starts) = (new double[days.Length], new double[days.Length]);
        for (var shape = 0; shape < Shapes.Length; shape++)
        {
            var curve = CurveOf(question, shape);
            for (var speed = 0; speed < Speeds; speed++)
            {
                var deviate = SpeedReach * ((2d * speed / (Speeds - 1)) - 1);
                var slower = Math.Exp(deviate * SpeedSpread);
                for (var link = 0; link < days.Length; link++)
                {
                    shares[link] = ShareOf(curve, shape, days[link] / slower);
                    starts[link] = chain.Links[link].From is null ? 0 : ShareOf(curve, shape, froms[link] / slower);
                }

                var now = days.Length == 0 ? 0 : shares[^1];
                foreach (var (fraction, logWeight) in fractions)
                {
                    var log = logWeight + Math.Log(Shapes[shape].Weight) - (deviate * deviate / 2) + Likelihood(chain, shares, starts, fraction, question.SeedsPerCell);
                    cells.Add(new Cell(fraction, slower, shape, now, log));
                }
            }
        }

        return new ForecastPosterior(chain, Normalized(cells));
    }

    /// <summary>Progress at which nine in ten of the final stand are up: median over the posterior.</summary>
    public double ProgressTo90Percent(ForecastQuestion question)
    {
        var known = new Dictionary<(int, double), double>();
        var sorted = Cells.Select(cell =>
        {
            var key = (cell.Shape, question.SeedsPerCell == 1 ? 1 : cell.Fraction);
            if (!known.TryGetValue(key, out var progress))
            {
                progress = known[key] = ProgressOf(question, cell.Shape, cell.Fraction);
            }

            return (progress: progress * cell.Slower, cell.Weight);
        }).OrderBy(item => item.progress).ToList();
        var sum = 0d;
        return sorted.First(item => (sum += item.Weight) >= 0.5).progress;
    }

    /// <summary>Progress at which half of the final emergence is up: median, 5 and 95 % over the posterior.</summary>
    public Interval ProgressToHalf(ForecastQuestion question)
    {
        var half = Enumerable.Range(0, Shapes.Length).Select(shape => Reaches(question, shape, 0.5)).ToArray();
        var sorted = Cells.Select(cell => (Progress: half[cell.Shape] * cell.Slower, cell.Weight)).OrderBy(item => item.Progress).ToList();
        double At(double chance)
        {
            var sum = 0d;
            return sorted.First(item => (sum += item.Weight) >= chance - 1e-9).Progress;
        }

        return new Interval(At(0.5), At(0.05), At(0.95));
    }

    /// <summary>The posterior with the share of the final emergence that is up at a progress.</summary>
    public IEnumerable<(Cell Cell, double Share)> SharesAt(ForecastQuestion question, double progress)
    {
        var known = new Dictionary<(int, double), double>();
        foreach (var cell in Cells)
        {
            if (!known.TryGetValue((cell.Shape, cell.Slower), out var share))
            {
                share = known[(cell.Shape, cell.Slower)] = ShareOf(CurveOf(question, cell.Shape), cell.Shape, progress / cell.Slower);
            }

            yield return (cell, share);
        }
    }

    /// <summary>Progress of a usual lot at which nine in ten of the final stand are up, where G is this.</summary>
    private static double ProgressOf(ForecastQuestion question, int shape, double fraction)
    {
        var k = question.SeedsPerCell;
        return Reaches(question, shape, (1 - Math.Pow(1 - (0.9 * Up(fraction, k)), 1d / k)) / fraction);
    }

    /// <summary>Progress of a usual lot at which a share of the final emergence is up.</summary>
    private static double Reaches(ForecastQuestion question, int shape, double share)
    {
        var curve = CurveOf(question, shape);
        var (low, high) = (0d, 64d);
        for (var step = 0; step < 40; step++)
        {
            var middle = (low + high) / 2;
            (low, high) = ShareOf(curve, shape, middle) < share ? (middle, high) : (low, middle);
        }

        return high;
    }

    private static EmergenceCurve CurveOf(ForecastQuestion question, int shape) =>
        new(question.Curve.Family, Math.Clamp(question.Curve.Sigma * Shapes[shape].Factor, 0.02, 2));

    private static double ShareOf(EmergenceCurve curve, int shape, double progress)
    {
        var slow = Shapes[shape].Slow;
        return slow == 0 ? curve.Share(progress) : ((1 - slow) * curve.Share(progress)) + (slow * curve.Share(progress / SlowBy));
    }

    private static double Likelihood(CountChain chain, double[] shares, double[] starts, double fraction, int seedsPerCell)
    {
        var sum = 0d;
        for (var index = 0; index < shares.Length; index++)
        {
            var link = chain.Links[index];
            var (now, before) = (Up(fraction * shares[index], link.ByCell ? seedsPerCell : 1), Up(fraction * starts[index], link.ByCell ? seedsPerCell : 1));
            var chance = Math.Clamp((now - before) / Math.Max(1e-12, 1 - before), 1e-6, 1 - 1e-6);
            sum += ((link.New * Math.Log(chance)) + ((link.Of - link.New) * Math.Log(1 - chance))) / (1 + (link.Of * Overdispersion));
        }

        return sum;
    }

    internal static double Up(double seed, int seedsPerCell)
    {
        var empty = 1d;
        for (var count = 0; count < seedsPerCell; count++)
        {
            empty *= 1 - seed;
        }

        return 1 - empty;
    }

    private static (double Fraction, double LogWeight)[] FractionGrid(BetaShape prior)
    {
        var (low, high) = (Math.Max(0, prior.Mean - (5 * prior.Spread)), Math.Min(1, prior.Mean + (5 * prior.Spread)));
        var scale = -SpecialFunctions.BetaLn(prior.A, prior.B);
        return [.. Enumerable.Range(0, Fractions).Select(index => low + ((high - low) * (index + 0.5) / Fractions))
            .Select(fraction => (fraction, scale + ((prior.A - 1) * Math.Log(fraction)) + ((prior.B - 1) * Math.Log(1 - fraction))))];
    }

    /// <summary>Weights that add to one; what weighs next to nothing is dropped.</summary>
    private static List<Cell> Normalized(List<Cell> cells)
    {
        var best = cells.Max(cell => cell.Weight);
        var kept = cells.Where(cell => cell.Weight > best - 14).Select(cell => cell with { Weight = Math.Exp(cell.Weight - best) }).ToList();
        var total = kept.Sum(cell => cell.Weight);
        return kept.ConvertAll(cell => cell with { Weight = cell.Weight / total });
    }

    /// <param name="Fraction">Final emergence G.</param>
    /// <param name="Slower">Factor on the thermal time.</param>
    /// <param name="Shape">Of the curve.</param>
    /// <param name="ShareNow">H at the last count: share of the final emergence that was up.</param>
    /// <param name="Weight">Posterior weight.</param>
    internal readonly record struct Cell(double Fraction, double Slower, int Shape, double ShareNow, double Weight);
}
