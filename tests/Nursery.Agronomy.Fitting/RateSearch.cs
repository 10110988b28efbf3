namespace Nursery.Agronomy.Fitting;

/// <summary>Fits base, thermal time, optimum and ceiling to the days of one crop with its prior. ln days has an error of 8 % and the
/// table's rounding to whole days; NG means less than about 1/100 of the way a day. The thermal time is solved for exactly, the other
/// three are looked for on a grid of ½ °C, then finer. 32 °F is left out: the straight line does not hold there.</summary>
public static class RateSearch
{
    private const double ModelError = 0.08;
    private const double RoundingDays = 0.29;
    private const double NoGerminationRate = 0.01;
    private const double Step = 0.5;

    /// <summary>Least °C from optimum to ceiling (from memory: seed does not go from best to nothing within a degree).</summary>
    private const double LeastFall = 4;

    public static RateFit Fit(IReadOnlyList<DaysPoint> points, CropPrior prior)
    {
        var used = points.Where(point => point.Celsius > 0).ToList();
        var days = used.Where(point => point.Days is not null)
            .Select(point => (point.Celsius, Log: Math.Log(point.Days!.Value), Weight: 1 / Variance(point.Days.Value))).ToArray();
        var none = used.Where(point => point.NoGermination).Select(point => point.Celsius).ToArray();
        var grid = Grid(prior).Select(at => (at, Score: Score(at, days, none, prior, out var log), Log: log)).ToList();
        var best = grid.MaxBy(item => item.Score);
        var (peak, thermal) = Refined(best.at, days, none, prior);
        return Ranged(new RateFit(peak.Base, Math.Exp(thermal), peak.Optimum, peak.Ceiling), grid, best.Score);
    }

    /// <summary>The rate without its scale, in °C above the base.</summary>
    public static double Shape(double celsius, double low, double best, double high) => celsius <= low || celsius >= high
        ? 0
        : celsius <= best ? celsius - low : (best - low) * (high - celsius) / (high - best);

    private static double Variance(double days) => (ModelError * ModelError) + (RoundingDays / days * (RoundingDays / days));

    private static IEnumerable<(double Base, double Optimum, double Ceiling)> Grid(CropPrior prior)
    {
        for (var low = Math.Floor(prior.Base - (3 * prior.BaseSd)); low <= prior.Base + (3 * prior.BaseSd); low += Step)
        {
            for (var best = Math.Floor(prior.Optimum - (4 * prior.OptimumSd)); best <= prior.Optimum + (3 * prior.OptimumSd); best += Step)
            {
                for (var high = Math.Max(best + LeastFall, Math.Floor(prior.Ceiling - (4 * prior.CeilingSd))); high <= prior.Ceiling + (3 * prior.CeilingSd); high += Step)
                {
                    if (best > low + 5)
                    {
                        yield return (low, best, high);
                    }
                }
            }
        }
    }

    private static double Score(
        (double Base, double Optimum, double Ceiling) at, (double Celsius, double Log, double Weight)[] days, double[] none, CropPrior prior,
        out double thermalLog)
    {
        var (sum, weights) = (0d, 0d);
        thermalLog = 0;
        foreach (var (celsius, log, weight) in days)
        {
            var shape = Shape(celsius, at.Base, at.Optimum, at.Ceiling);
            if (shape <= 0)
            {
                return double.NegativeInfinity;
            }

            sum += weight * (log + Math.Log(shape));
            weights += weight;
        }

        thermalLog = sum / weights;
        var score = -(Square((at.Base - prior.Base) / prior.BaseSd) + Square((at.Optimum - prior.Optimum) / prior.OptimumSd)
            + Square((at.Ceiling - prior.Ceiling) / prior.CeilingSd)) / 2;
        foreach (var (celsius, log, weight) in days)
        {
            score -= weight * Square(log + Math.Log(Shape(celsius, at.Base, at.Optimum, at.Ceiling)) - thermalLog) / 2;
        }

        foreach (var celsius in none)
        {
            score -= Square(Shape(celsius, at.Base, at.Optimum, at.Ceiling) / Math.Exp(thermalLog) / NoGerminationRate) / 2;
        }

        return score;
    }

    private static ((double Base, double Optimum, double Ceiling) At, double ThermalLog) Refined(
        (double Base, double Optimum, double Ceiling) start, (double Celsius, double Log, double Weight)[] days, double[] none, CropPrior prior)
    {
        var (at, score) = (start, Score(start, days, none, prior, out var log));
        for (var step = Step; step > 0.005; step /= 2)
        {
            for (var moved = true; moved;)
            {
                moved = false;
                foreach (var next in Neighbors(at, step))
                {
                    var other = next.Ceiling >= next.Optimum + LeastFall && next.Optimum > next.Base + 5
                        ? Score(next, days, none, prior, out var otherLog)
                        : Score(at, days, none, prior, out otherLog) - 1;
                    if (other > score + 1e-12)
                    {
                        (at, score, log, moved) = (next, other, otherLog, true);
                    }
                }
            }
        }

        return (at, log);
    }

    private static IEnumerable<(double Base, double Optimum, double Ceiling)> Neighbors((double Base, double Optimum, double Ceiling) at, double step)
    {
        foreach (var a in new[] { -step, 0, step })
        {
            foreach (var b in new[] { -step, 0, step })
            {
                foreach (var c in new[] { -step, 0, step })
                {
                    yield return (at.Base + a, at.Optimum + b, at.Ceiling + c);
                }
            }
        }
    }

    private static RateFit Ranged(
        RateFit fit, IReadOnlyList<((double Base, double Optimum, double Ceiling) At, double Score, double Log)> grid, double best)
    {
        var weighted = grid.Where(item => item.Score > best - 20).Select(item => (item.At, item.Log, Weight: Math.Exp(item.Score - best))).ToList();
        return fit with
        {
            BaseRange = Range(weighted.Select(item => (item.At.Base, item.Weight))),
            OptimumRange = Range(weighted.Select(item => (item.At.Optimum, item.Weight))),
            CeilingRange = Range(weighted.Select(item => (item.At.Ceiling, item.Weight))),
            ThermalTimeRange = Range(weighted.Select(item => (Math.Exp(item.Log), item.Weight))),
        };
    }

    private static (double Low, double High) Range(IEnumerable<(double Value, double Weight)> weighted)
    {
        var sorted = weighted.OrderBy(item => item.Value).ToList();
        var (total, sum, low) = (sorted.Sum(item => item.Weight), 0d, sorted[0].Value);
        foreach (var (value, weight) in sorted)
        {
            low = sum < 0.05 * total ? value : low;
            sum += weight;
            if (sum >= 0.95 * total)
            {
                return (low, value);
            }
        }

        return (low, sorted[^1].Value);
    }

    private static double Square(double value) => value * value;
}
