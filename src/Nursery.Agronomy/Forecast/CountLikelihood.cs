namespace Nursery.Agronomy.Forecast;

/// <summary>How likely what was counted is, for each final emergence, speed and curve. A chain of counts of the same units is one
/// multinomial: so many came up before each count, the rest is not up yet; it weighs as its units ÷ (1 + units · ρ).</summary>
internal sealed class CountLikelihood
{
    private const double LeastChance = 1e-6;
    private readonly ForecastBeliefs _beliefs;
    private readonly int _seedsPerCell;
    private readonly Chain[] _chains;
    private readonly double _now;

    public CountLikelihood(CountChain counts, int seedsPerCell, ForecastBeliefs beliefs, Func<double, double> progress)
    {
        (_beliefs, _seedsPerCell) = (beliefs, seedsPerCell);
        var chains = new List<List<CountChain.Link>>();
        foreach (var link in counts.Links)
        {
            if (link.From is null)
            {
                chains.Add([]);
            }

            chains[^1].Add(link);
        }

        _chains = [.. chains.Select(links => new Chain(
            links[0].ByCell, [.. links.Select(link => progress(link.Day))], [.. links.Select(link => link.New)], links[^1].Of - links[^1].New,
            1 / (1 + (links[0].Of * beliefs.Overdispersion))))];
        _now = counts.Links.Count == 0 ? 0 : progress(counts.Links[^1].Day);
    }

    /// <summary>The grid with its logarithmic weights: prior of final emergence, of speed and of curve, and
    /// likelihood; what weighs next to nothing beside the best so far is left out.</summary>
    public List<ForecastPosterior.Cell> Over((double Fraction, double LogWeight)[] fractions, double[] deviates)
    {
        var (cells, best) = (new List<ForecastPosterior.Cell>(1024), double.NegativeInfinity);
        var logs = fractions.Select(item => Math.Log(item.Fraction)).ToArray();
        var shares = _chains.Select(chain => new double[chain.Progress.Length]).ToArray();
        var steps = new double[_chains.Length];
        for (var curve = 0; curve < _beliefs.Curves.Count; curve++)
        {
            var (share, weight) = _beliefs.Curves[curve];
            foreach (var deviate in deviates)
            {
                var slower = Math.Exp(deviate * _beliefs.SpeedSpread);
                for (var chain = 0; chain < _chains.Length; chain++)
                {
                    steps[chain] = Steps(_chains[chain], shares[chain], share, slower);
                }

                var (now, log) = (_now == 0 ? 0 : share(_now / slower), Math.Log(weight) - (deviate * deviate / 2));
                for (var index = 0; index < fractions.Length; index++)
                {
                    var (fraction, logWeight) = fractions[index];
                    var sum = logWeight + log;
                    for (var chain = 0; chain < _chains.Length; chain++)
                    {
                        sum += PerUnit(_chains[chain]) == 1
                            ? OfSeeds(_chains[chain], shares[chain][^1], steps[chain], fraction, logs[index])
                            : OfCells(_chains[chain], shares[chain], fraction);
                    }

                    if (sum > best - ForecastPosterior.NextToNothing)
                    {
                        best = Math.Max(best, sum);
                        cells.Add(new ForecastPosterior.Cell(fraction, deviate, slower, curve, now, sum));
                    }
                }
            }
        }

        return cells;
    }

    private int PerUnit(Chain chain) => chain.ByCell ? _seedsPerCell : 1;

    /// <summary>Fills in the shares up at each count; what they say by themselves, whatever the final emergence, is the sum given back.</summary>
    private static double Steps(Chain chain, double[] shares, Func<double, double> share, double slower)
    {
        var (sum, before) = (0d, 0d);
        for (var index = 0; index < shares.Length; index++)
        {
            shares[index] = share(chain.Progress[index] / slower);
            sum += chain.New[index] == 0 ? 0 : chain.New[index] * Math.Log(Math.Max(LeastChance, shares[index] - before));
            before = shares[index];
        }

        return sum;
    }

    private static double OfSeeds(Chain chain, double last, double steps, double fraction, double logFraction) =>
        chain.Weight * (steps + (chain.Up * logFraction) + (chain.Rest * Math.Log(Math.Max(LeastChance, 1 - (fraction * last)))));

    private double OfCells(Chain chain, double[] shares, double fraction)
    {
        var (sum, before) = (0d, 0d);
        for (var index = 0; index < shares.Length; index++)
        {
            var up = ForecastPosterior.Up(fraction * shares[index], _seedsPerCell);
            sum += chain.New[index] == 0 ? 0 : chain.New[index] * Math.Log(Math.Max(LeastChance, up - before));
            before = up;
        }

        return chain.Weight * (sum + (chain.Rest * Math.Log(Math.Max(LeastChance, 1 - before))));
    }

    /// <param name="Progress">At each count.</param>
    /// <param name="New">Units up since the count before.</param>
    /// <param name="Rest">Units not up at the last count.</param>
    private sealed record Chain(bool ByCell, double[] Progress, int[] New, int Rest, double Weight)
    {
        public int Up { get; } = New.Sum();
    }
}
