using MathNet.Numerics;
using Nursery.Agronomy.Emergence;

namespace Nursery.Agronomy.Forecast;

/// <summary>What the counts say of final emergence G, speed and spread, on a fixed grid. Source of the method: grid approximation, Gelman et
/// al., Bayesian Data Analysis, 3rd ed. 2013, 10.1 (from memory).</summary>
internal sealed class ForecastPosterior
{
    private const double SpeedReach = 3;
    internal const double NextToNothing = 14;
    private const int WideSpeeds = 19;
    private const double Negligible = 1e-4;
    private readonly ForecastBeliefs _beliefs;

    private ForecastPosterior(CountChain chain, IReadOnlyList<Cell> cells, ForecastBeliefs beliefs, double speedStep) =>
        (Chain, Cells, _beliefs, SpeedStep) = (chain, cells, beliefs, speedStep);

    public CountChain Chain { get; }

    public IReadOnlyList<Cell> Cells { get; }

    /// <summary>Of ln thermal time, from one speed of the grid to the next.</summary>
    public double SpeedStep { get; }

    public static ForecastPosterior Of(ForecastQuestion question, ForecastBeliefs beliefs)
    {
        var chain = CountChain.Of(question);
        var progress = beliefs.ProgressAt ?? (day => question.Temperatures.ProgressAt(question.Rate, day));
        var likelihood = new CountLikelihood(chain, question.SeedsPerCell, beliefs, progress);
        var steps = beliefs.SpeedSpread == 0 ? 1 : beliefs.Grid.Speeds;
        var (from, to) = (PriorReach(question.Prior), (-SpeedReach, SpeedReach));
        if (chain.Links.Count > 0)
        {
            // First the whole range, for a lot may be far from its label; then finely where the counts leave something.
            var (fractions, deviates) = (WholeRange(question.Prior), Deviates(to, Math.Min(steps, WideSpeeds)));
            var wide = Normalized(likelihood.Over(WithPrior(fractions, question.Prior), deviates));
            from = Box(wide, cell => cell.Fraction, [0, .. fractions.Select(item => item.At), 1]);
            to = Box(wide, cell => cell.Deviate, [-SpeedReach, .. deviates, SpeedReach]);
        }

        var cells = likelihood.Over(WithPrior(Within(from, beliefs.Grid.Fractions), question.Prior), Deviates(to, steps));
        var step = steps == 1 ? 0 : (to.Item2 - to.Item1) * beliefs.SpeedSpread / (steps - 1);
        return new ForecastPosterior(chain, Normalized(cells), beliefs, step);
    }

    /// <summary>Progress at which nine in ten of the final stand are up: median over the posterior.</summary>
    public double ProgressTo90Percent(ForecastQuestion question)
    {
        var known = new Dictionary<(int, double), double>();
        return Points(
            cell =>
            {
                var key = (cell.Curve, question.SeedsPerCell == 1 ? 1 : cell.Fraction);
                if (!known.TryGetValue(key, out var progress))
                {
                    progress = known[key] = ProgressOf(question.SeedsPerCell, cell.Curve, cell.Fraction);
                }

                return progress * cell.Slower;
            },
            0.5)[0];
    }

    /// <summary>Progress at which half of the final emergence is up: median, 5 and 95 % over the posterior.</summary>
    public Interval ProgressToHalf()
    {
        var half = Enumerable.Range(0, _beliefs.Curves.Count).Select(curve => Reaches(curve, 0.5)).ToArray();
        var points = Points(cell => half[cell.Curve] * cell.Slower, 0.05, 0.5, 0.95);
        return new Interval(points[1], points[0], points[2]);
    }

    /// <summary>Points of a value over the posterior below or at which so much of the weight lies.</summary>
    private double[] Points(Func<Cell, double> of, params double[] chances)
    {
        var (values, weights) = (new double[Cells.Count], new double[Cells.Count]);
        for (var index = 0; index < values.Length; index++)
        {
            (values[index], weights[index]) = (of(Cells[index]), Cells[index].Weight);
        }

        Array.Sort(values, weights);
        return Array.ConvertAll(chances, chance =>
        {
            var (sum, at) = (weights[0], 0);
            while (sum < chance - 1e-9 && at < values.Length - 1)
            {
                sum += weights[++at];
            }

            return values[at];
        });
    }

    /// <summary>The posterior with the share of the final emergence that is up at a progress.</summary>
    public IEnumerable<(Cell Cell, double Share)> SharesAt(double progress)
    {
        var known = new Dictionary<(int, double), double>();
        foreach (var cell in Cells)
        {
            if (!known.TryGetValue((cell.Curve, cell.Slower), out var share))
            {
                share = known[(cell.Curve, cell.Slower)] = _beliefs.Curves[cell.Curve].Share(progress / cell.Slower);
            }

            yield return (cell, share);
        }
    }

    /// <summary>Progress of a usual lot at which nine in ten of the final stand are up, where G is this.</summary>
    private double ProgressOf(int seedsPerCell, int curve, double fraction) =>
        Reaches(curve, (1 - Math.Pow(1 - (0.9 * Up(fraction, seedsPerCell)), 1d / seedsPerCell)) / fraction);

    /// <summary>Progress of a usual lot at which a share of the final emergence is up.</summary>
    private double Reaches(int curve, double share)
    {
        var (low, high) = (0d, 64d);
        for (var step = 0; step < 40; step++)
        {
            var middle = (low + high) / 2;
            (low, high) = _beliefs.Curves[curve].Share(middle) < share ? (middle, high) : (low, middle);
        }

        return high;
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

    private static (double Low, double High) PriorReach(BetaShape prior) =>
        (Math.Max(0, prior.Mean - (5 * prior.Spread)), Math.Min(1, prior.Mean + (5 * prior.Spread)));

    private static (double At, double Width)[] Within((double Low, double High) range, int steps) =>
        [.. Enumerable.Range(0, steps).Select(index => (range.Low + ((range.High - range.Low) * (index + 0.5) / steps), (range.High - range.Low) / steps))];

    /// <summary>From nothing to all, closer where the prior lies.</summary>
    private static (double At, double Width)[] WholeRange(BetaShape prior)
    {
        var reach = PriorReach(prior);
        return [.. new[] { (0, reach.Low), reach, (reach.High, 1) }.Where(part => part.Item2 > part.Item1).SelectMany(part => Within(part, part == reach ? 20 : 10))];
    }

    private static (double Fraction, double LogWeight)[] WithPrior((double At, double Width)[] grid, BetaShape prior)
    {
        var scale = -SpecialFunctions.BetaLn(prior.A, prior.B);
        return [.. grid.Select(step => (step.At, Math.Log(step.Width) + scale + ((prior.A - 1) * Math.Log(step.At)) + ((prior.B - 1) * Math.Log(1 - step.At))))];
    }

    private static double[] Deviates((double Low, double High) range, int steps) =>
        steps == 1 ? [0] : [.. Enumerable.Range(0, steps).Select(index => range.Low + ((range.High - range.Low) * index / (steps - 1)))];

    /// <summary>Where nearly all of the weight lies, with a step of the grid on either side.</summary>
    /// <param name="axis">The grid between its ends.</param>
    private static (double Low, double High) Box(List<Cell> cells, Func<Cell, double> of, double[] axis)
    {
        var sums = new Dictionary<double, double>();
        foreach (var cell in cells)
        {
            sums[of(cell)] = sums.GetValueOrDefault(of(cell)) + cell.Weight;
        }

        bool Counts(double at) => sums.GetValueOrDefault(at) > Negligible;
        return (axis[Math.Max(0, Array.FindIndex(axis, Counts) - 1)], axis[Math.Min(axis.Length - 1, Array.FindLastIndex(axis, Counts) + 1)]);
    }

    /// <summary>Makes the weights add to one; what weighs next to nothing is dropped.</summary>
    private static List<Cell> Normalized(List<Cell> cells)
    {
        var best = cells.Max(cell => cell.Weight);
        cells.RemoveAll(cell => cell.Weight <= best - NextToNothing);
        var weights = cells.ConvertAll(cell => Math.Exp(cell.Weight - best));
        var total = weights.Sum();
        for (var index = 0; index < cells.Count; index++)
        {
            cells[index] = cells[index] with { Weight = weights[index] / total };
        }

        return cells;
    }

    /// <param name="Fraction">Final emergence G.</param>
    /// <param name="Deviate">Of ln thermal time, in standard deviations.</param>
    /// <param name="Slower">Factor on the thermal time.</param>
    /// <param name="Curve">Which of the curves.</param>
    /// <param name="ShareNow">H at the last count: share of the final emergence that was up.</param>
    /// <param name="Weight">Posterior weight.</param>
    internal readonly record struct Cell(double Fraction, double Deviate, double Slower, int Curve, double ShareNow, double Weight);
}
