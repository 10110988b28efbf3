namespace Nursery.Agronomy.Germination;

/// <summary>The usual figures of one germination test or one batch from daily counts. A figure that does not exist for the counts is null.
/// Formulas as collected in Ranal &amp; Santana, Revista Brasileira de Botânica 29: 1–11, 2006 (from memory), checked against the printed
/// results of two seed science packages (docs/agronomy/germination.md). n is new that day, t the day, N the sum of n.</summary>
public sealed record GerminationFigures
{
    private readonly DayCount[] _counts;
    private readonly int _seeds;
    private readonly int _germinated;

    /// <param name="seeds">Sown, 1 to 1,000,000.</param>
    /// <param name="counts">Each day at most once, in any order; together not more than the seeds.</param>
    /// <exception cref="InputOutOfRange">An input outside its range.</exception>
    public GerminationFigures(int seeds, IReadOnlyList<DayCount> counts)
    {
        _seeds = InputOutOfRange.Within(seeds, 1, 1_000_000, nameof(seeds), "seeds");
        foreach (var count in counts)
        {
            InputOutOfRange.Within(count.Day, 0, 400, "day", "days since sowing");
            InputOutOfRange.Within(count.Germinated, 0, seeds, "germinated", "seeds");
        }

        if (counts.GroupBy(count => count.Day).FirstOrDefault(day => day.Count() > 1) is { } twice)
        {
            throw InputOutOfRange.Of(twice.Key, "day", "days since sowing", "each day once");
        }

        InputOutOfRange.Within(counts.Sum(count => (double)count.Germinated), 0, seeds, "germinated", $"seeds together, of {seeds} sown");
        _counts = [.. counts.OrderBy(count => count.Day)];
        _germinated = counts.Sum(count => count.Germinated);
    }

    /// <summary>N ÷ seeds.</summary>
    public Fraction FinalFraction => new((double)_germinated / _seeds);

    /// <summary>Wilson's score interval, 95 %.</summary>
    public (Fraction Low, Fraction High) Wilson95 => ProportionInterval.Wilson(_germinated, _seeds);

    /// <summary>Jeffreys' interval, 95 %.</summary>
    public (Fraction Low, Fraction High) Jeffreys95 => ProportionInterval.Jeffreys(_germinated, _seeds);

    /// <summary>Clopper and Pearson's exact interval, 95 %.</summary>
    public (Fraction Low, Fraction High) ClopperPearson95 => ProportionInterval.ClopperPearson(_germinated, _seeds);

    /// <summary>Days until (N + 1) ÷ 2 had germinated (Coolbear, Francis &amp; Grierson, J. Exp. Bot. 35: 1609–1617, 1984).</summary>
    public double? T50Coolbear => TimeTo((_germinated + 1) / 2d);

    /// <summary>Days until N ÷ 2 had germinated (Farooq et al., J. Integr. Plant Biol. 47: 187–193, 2005).</summary>
    public double? T50Farooq => TimeTo(_germinated / 2d);

    /// <summary>Σ n t ÷ N, days.</summary>
    public double? MeanTime => _germinated > 0 ? Sum(count => count.Germinated * count.Day) / _germinated : null;

    /// <summary>Σ n (t − mean)² ÷ (N − 1), days².</summary>
    public double? TimeVariance => _germinated > 1
        ? Sum(count => count.Germinated * (count.Day - MeanTime!.Value) * (count.Day - MeanTime.Value)) / (_germinated - 1)
        : null;

    /// <summary>1 ÷ mean time, a day.</summary>
    public double? MeanRate => MeanTime is > 0 and var mean ? 1 / mean : null;

    /// <summary>100 N ÷ Σ n t (Kotowski 1926), percent a day.</summary>
    public double? CoefficientOfVelocity => MeanRate * 100;

    /// <summary>Z = Σ C(n, 2) ÷ C(N, 2) (Primack 1980): 1 when all germinate on one day.</summary>
    public double? SynchronyZ => _germinated > 1
        ? Sum(count => count.Germinated * (count.Germinated - 1d)) / (_germinated * (_germinated - 1d))
        : null;

    /// <summary>U = −Σ f log₂ f with f = n ÷ N (Labouriau &amp; Valadares 1976), bit.</summary>
    public double? UncertaintyU => _germinated > 0
        ? Math.Max(0, -Sum(count => count.Germinated == 0 ? 0 : (double)count.Germinated / _germinated * Math.Log2((double)count.Germinated / _germinated)))
        : null;

    /// <summary>Σ n ÷ t (Maguire 1962), seeds a day; null when seed is said to have germinated on day 0.</summary>
    public double? SpeedIndex => _counts.Any(count => count.Germinated > 0 && count.Day == 0)
        ? null
        : Sum(count => count.Germinated == 0 ? 0 : count.Germinated / count.Day);

    /// <summary>Straight line between the last count under the target and the first above it, both strictly: a count that meets the
    /// target exactly is passed over. Before the first count stands nothing on day 0.</summary>
    private double? TimeTo(double target)
    {
        var (day, sum) = (0d, 0);
        var total = 0;
        foreach (var count in _counts)
        {
            total += count.Germinated;
            if (total > target)
            {
                return count.Day == 0 ? null : day + ((target - sum) * (count.Day - day) / (total - sum));
            }

            if (total < target)
            {
                (day, sum) = (count.Day, total);
            }
        }

        return null;
    }

    private double Sum(Func<DayCount, double> of) => _counts.Sum(of);
}
