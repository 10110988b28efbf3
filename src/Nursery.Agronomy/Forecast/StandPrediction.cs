using MathNet.Numerics.Distributions;

namespace Nursery.Agronomy.Forecast;

/// <summary>What the posterior makes of seeds, cells and plants: those counted are known, those not up yet come with the chance that is left,
/// those not looked at with G. Sums of many seeds are taken as normal, mixed over the posterior.</summary>
internal sealed class StandPrediction
{
    private const int Bins = 64;
    private const int SurvivalNodes = 8;

    /// <summary>A tray is taken as 72 cells.</summary>
    private const double TrayCells = 72;

    private readonly ForecastQuestion _question;
    private readonly ForecastPosterior _posterior;
    private readonly ForecastBeliefs _beliefs;
    private readonly Mixture _emerged;
    private readonly Mixture _stand;
    private readonly Mixture _usable;

    public StandPrediction(ForecastQuestion question, ForecastPosterior posterior, ForecastBeliefs beliefs)
    {
        (_question, _posterior, _beliefs) = (question, posterior, beliefs);
        var cells = posterior.Cells;
        var (emerged, stand) = (new (Moments, double)[cells.Count], new (Moments, double)[cells.Count]);
        for (var index = 0; index < cells.Count; index++)
        {
            var (seeds, plants) = Predict(cells[index], cells[index].Fraction, posterior.Chain.Now);
            (emerged[index], stand[index]) = ((seeds, cells[index].Weight), (plants, cells[index].Weight));
        }

        _emerged = Mixture.Of(emerged, Bins);
        _stand = Mixture.Of(stand, Bins);
        _usable = question.Survival is { } survival ? _stand.Thinned(Nodes(survival)) : _stand;
    }

    /// <summary>Seeds that will have emerged.</summary>
    public Mixture Emerged => _emerged;

    public Interval FinalFraction() => Scaled(_emerged.Interval90(_question.Seeds), 1d / _question.Seeds);

    public Interval Stand() => Rounded(_stand.Interval90(_question.Cells));

    public Interval Usable() => Rounded(_usable.Interval90(_question.Cells));

    public double ChanceOf(int wanted) => wanted > _question.Cells ? 0 : wanted <= 0 ? 1 : 1 - _usable.Below(wanted - 0.5);

    /// <summary>The usable plants, a number as likely as any other of the same weight.</summary>
    public Mixture Usables => _usable;

    /// <summary>Seeds up at a progress ÷ seeds: what the counts say of days before the last of them, and what comes after it.</summary>
    /// <param name="progress">0 or more.</param>
    /// <param name="isToCome">After the last count.</param>
    public Interval UpAt(double progress, bool isToCome)
    {
        var now = isToCome ? _posterior.Chain.Now : null;
        var parts = _posterior.SharesAt(progress).Select(item =>
        {
            // Nothing goes back into the ground: whoever is up at the count is up from then on.
            var reach = item.Cell.Fraction * Math.Max(item.Share, now is null ? 0 : item.Cell.ShareNow);
            return (Predict(item.Cell, reach, now).Emerged, item.Cell.Weight);
        }).ToArray();
        return Scaled(Mixture.Of(parts, Bins).Interval90(_question.Seeds), 1d / _question.Seeds);
    }

    /// <param name="cell">Of the posterior.</param>
    /// <param name="g">Chance of a seed to be up by the day asked for; the final one for the end.</param>
    /// <param name="now">The last count; null where it does not bear on the day.</param>
    private (Moments Emerged, Moments Stand) Predict(ForecastPosterior.Cell cell, double g, CountChain.CountedNow? now)
    {
        var k = _question.SeedsPerCell;
        var filled = ForecastPosterior.Up(g, k);
        var (seeds, cells) = ((double)_question.Seeds, (double)_question.Cells);
        if (now is null)
        {
            return (Binomial(seeds, g), Binomial(cells, filled));
        }

        var atCount = cell.Fraction * cell.ShareNow;
        if (now.ByCell)
        {
            var up = ForecastPosterior.Up(atCount, k);
            var late = Math.Clamp((filled - up) / Math.Max(1e-12, 1 - up), 0, 1);
            var stand = Binomial(now.Units - now.Up, late).And(Seen(now.Up)).And(NotLookedAt(cells - now.Cells, filled, now.Cells, 1));
            return k == 1 ? (stand, stand) : (Binomial(seeds, g), stand);
        }

        var coming = Math.Clamp((g - atCount) / Math.Max(1e-12, 1 - atCount), 0, 1);
        var counted = Binomial(now.Units - now.Up, coming).And(Seen(now.Up));
        var emerged = counted.And(NotLookedAt(seeds - now.Units, g, now.Cells, k));

        // How the emerged share their cells: by the final fraction of those counted, less the variance that fraction already holds.
        var f = Math.Clamp(counted.Mean / now.Units, 1e-9, 1 - 1e-9);
        var (share, slope) = (ForecastPosterior.Up(f, k), k * Math.Pow(1 - f, k - 1));
        var inCells = new Moments(
            now.Cells * share,
            (now.Cells * Math.Max(0, (share * (1 - share)) - (slope * slope * f * (1 - f) / k)))
                + (slope / k * (slope / k) * counted.Variance));
        return (emerged, inCells.And(NotLookedAt(cells - now.Cells, filled, now.Cells, 1)));
    }

    private Moments Seen(int up) => new(up, up == 0 ? 0 : _beliefs.MiscountVariance + (_beliefs.MiscountShare * up * (_beliefs.MiscountShare * up)));

    /// <summary>Other trays than those looked at may be better or worse than these.</summary>
    private Moments NotLookedAt(double units, double chance, int lookedAt, int unitsPerCell)
    {
        var logit = _beliefs.TrayLogit * chance * (1 - chance) * units;
        var trays = 1 / Math.Max(1, units / unitsPerCell / TrayCells);
        return new Moments(units * chance, (units * chance * (1 - chance)) + (logit * logit * (trays + (1 / Math.Max(1, lookedAt / TrayCells)))));
    }

    private static Moments Binomial(double n, double p) => new(n * p, n * p * (1 - p));

    private static double[] Nodes(BetaShape survival) =>
        [.. Enumerable.Range(0, SurvivalNodes).Select(node => Beta.InvCDF(survival.A, survival.B, (node + 0.5) / SurvivalNodes))];

    private static Interval Scaled(Interval interval, double by) => new(interval.Median * by, interval.Low * by, interval.High * by);

    private static Interval Rounded(Interval interval) => new(Math.Round(interval.Median), Math.Round(interval.Low), Math.Round(interval.High));
}
