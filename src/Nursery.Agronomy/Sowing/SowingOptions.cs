namespace Nursery.Agronomy.Sowing;

/// <summary>The fewest cells for each number of seeds a cell, and what each way costs. Between batches germination is a beta distribution, so
/// the yield is beta-binomial (Johnson, Kemp &amp; Kotz, Univariate Discrete Distributions, 3rd ed. 2005, 6.2.2, from memory). For one caller at a time.</summary>
public sealed class SowingOptions
{
    private const int MostCells = 20_000_000;
    private const double Negligible = 1e-12;

    private readonly SowingQuestion _question;
    private readonly PanelCurve _prior;
    private readonly PanelCurve? _survival;

    /// <summary>By seeds a cell: most of the work of a chance, and the same for any number of cells.</summary>
    private readonly Dictionary<int, UsableShare> _shares = [];

    /// <exception cref="InputOutOfRange">An input of the question outside its range.</exception>
    public SowingOptions(SowingQuestion question)
    {
        question.Check();
        _question = question;
        _prior = UsableShare.Over(question.Prior);
        _survival = question.Survival is { } survival ? UsableShare.Over(survival) : null;
    }

    /// <summary>Every way; the cheapest is the one to propose.</summary>
    /// <param name="seedsPerCell">1 to 15 each, not fewer than are kept; one or more.</param>
    /// <exception cref="InputOutOfRange">A number outside its range, or no number of cells reaches the chance.</exception>
    public IReadOnlyList<SowingOption> All(IReadOnlyList<int> seedsPerCell)
    {
        InputOutOfRange.Within(seedsPerCell.Count, 1, 15, nameof(seedsPerCell), "numbers");
        return [.. seedsPerCell.Select(Of)];
    }

    /// <summary>Chance that so many cells give the plants wanted.</summary>
    /// <param name="seedsPerCell">1 to 15.</param>
    /// <param name="cells">0 or more.</param>
    public Fraction Chance(int seedsPerCell, int cells) => new(ChanceOf(ShareOf(seedsPerCell), cells));

    /// <summary>One way.</summary>
    /// <inheritdoc cref="All"/>
    public SowingOption Of(int seedsPerCell)
    {
        var (cells, chance) = Fewest(ShareOf(seedsPerCell), seedsPerCell);
        return Option(seedsPerCell, cells, chance);
    }

    /// <summary>What so many cells give and cost, whatever their chance.</summary>
    /// <param name="seedsPerCell">1 to 15, not fewer than are kept.</param>
    /// <param name="cells">1 to 20,000,000.</param>
    /// <exception cref="InputOutOfRange">A number outside its range.</exception>
    public SowingOption At(int seedsPerCell, int cells) => Option(
        seedsPerCell, InputOutOfRange.Within(cells, 1, MostCells, nameof(cells), "cells"), ChanceOf(ShareOf(seedsPerCell), cells));

    /// <summary>What so many cells cost; quicker than <see cref="At"/>, for no chance is worked out.</summary>
    /// <inheritdoc cref="At"/>
    public double CostOf(int seedsPerCell, int cells)
    {
        InputOutOfRange.Within(seedsPerCell, _question.Keep.Low, 15, nameof(seedsPerCell), "seeds");
        return Option(seedsPerCell, InputOutOfRange.Within(cells, 1, MostCells, nameof(cells), "cells"), 0).Cost;
    }

    private SowingOption Option(int seedsPerCell, int cells, double chance)
    {
        var filled = Average(new CellFill(seedsPerCell, _question.Keep.Low, _question.WithinCellCorrelation));
        var crowded = _question.Keep.High < seedsPerCell
            ? Average(new CellFill(seedsPerCell, _question.Keep.High + 1, _question.WithinCellCorrelation))
            : 0;
        var (trays, seeds, blanks) = (Trays(cells), (long)cells * seedsPerCell, cells * (1 - filled));
        var costs = _question.Costs;
        var cost = (seeds * costs.Seed) + (cells * (costs.Cell + costs.Mix)) + (cells * crowded * costs.ThinSecondsPerCell * costs.ThinSecond)
            + (trays * costs.HeatDay * costs.HeatDays) + (blanks * costs.Blank);
        var usable = cells * filled * (_question.Survival?.Mean ?? 1) * (1 - _question.TrayLoss);
        return new SowingOption(seedsPerCell, cells, trays, seeds, chance, usable, blanks, cost);
    }

    private UsableShare ShareOf(int seedsPerCell)
    {
        InputOutOfRange.Within(seedsPerCell, _question.Keep.Low, 15, nameof(seedsPerCell), "seeds");
        return _shares.TryGetValue(seedsPerCell, out var known) ? known : _shares[seedsPerCell] = UsableShare.Of(_prior, _question.Prior, _survival, _question.Survival, new CellFill(seedsPerCell, _question.Keep.Low, _question.WithinCellCorrelation));
    }

    private int Trays(int cells) => ((cells - 1) / _question.CellsPerTray) + 1;

    /// <summary>Whole trays may be lost: the chance is that of the cells left, over how many full trays and whether the last one is lost.</summary>
    private double ChanceOf(UsableShare share, int cells)
    {
        if (_question.TrayLoss == 0 || cells == 0)
        {
            return share.Chance(cells, _question.WantedPlants);
        }

        var (full, rest) = (cells / _question.CellsPerTray, cells % _question.CellsPerTray);
        var chance = 0d;
        for (var lost = 0; lost <= full; lost++)
        {
            var weight = MathNet.Numerics.Distributions.Binomial.PMF(_question.TrayLoss, full, lost);
            var left = cells - (lost * _question.CellsPerTray);
            if (weight < Negligible)
            {
                // Beyond the mean the weights only fall.
                if (lost > full * _question.TrayLoss)
                {
                    break;
                }

                continue;
            }

            chance += weight * (rest == 0
                ? share.Chance(left, _question.WantedPlants)
                : ((1 - _question.TrayLoss) * share.Chance(left, _question.WantedPlants))
                    + (_question.TrayLoss * share.Chance(left - rest, _question.WantedPlants)));
        }

        return Math.Clamp(chance, 0, 1);
    }

    /// <summary>The chance grows with every cell, so the fewest lies between one that is too few and one that is enough; where between is
    /// guessed by a straight line through their normal deviates.</summary>
    private (int Cells, double Chance) Fewest(UsableShare share, int seedsPerCell)
    {
        var confidence = _question.Confidence.Value;
        var (few, fewChance) = (_question.WantedPlants - 1, 0d);
        var enough = (int)Math.Min(MostCells, Math.Ceiling(1.1 * _question.WantedPlants / Math.Max(0.01, Mean(seedsPerCell))) + 1);
        var enoughChance = ChanceOf(share, enough);
        while (enoughChance < confidence)
        {
            if (enough >= MostCells)
            {
                throw InputOutOfRange.Of(confidence, "confidence", "", $"what {MostCells} cells reach with {seedsPerCell} seeds a cell: {enoughChance:0.0000}");
            }

            (few, fewChance) = (enough, enoughChance);
            enough = (int)Math.Min(MostCells, (enough * 1.25) + 1);
            enoughChance = ChanceOf(share, enough);
        }

        for (var round = 0; enough - few > 1; round++)
        {
            var middle = round % 3 == 2 ? few + ((enough - few) / 2) : Guess(few, fewChance, enough, enoughChance, confidence);
            var chance = ChanceOf(share, middle);
            if (chance < confidence)
            {
                (few, fewChance) = (middle, chance);
            }
            else
            {
                (enough, enoughChance) = (middle, chance);
            }
        }

        return (enough, enoughChance);
    }

    private static int Guess(int few, double fewChance, int enough, double enoughChance, double confidence)
    {
        var (low, high, aim) = (Deviate(fewChance), Deviate(enoughChance), Deviate(confidence));
        var guess = high > low ? few + (int)Math.Ceiling((enough - few) * (aim - low) / (high - low)) : few + ((enough - few) / 2);
        return Math.Clamp(guess, few + 1, enough - 1);
    }

    private static double Deviate(double chance) => MathNet.Numerics.Distributions.Normal.InvCDF(0, 1, Math.Clamp(chance, 1e-9, 1 - 1e-9));

    private double Mean(int seedsPerCell) =>
        new CellFill(seedsPerCell, _question.Keep.Low, _question.WithinCellCorrelation).At(_question.Prior.Mean) * (_question.Survival?.Mean ?? 1);

    /// <summary>∫ fill(p) f(p) dp = ∫ fill′(p) P(X &gt; p) dp.</summary>
    private double Average(CellFill fill)
    {
        var sum = fill.At(_prior.Low);
        for (var panel = 0; panel + 1 < _prior.Edges.Count; panel++)
        {
            for (var point = 0; point < PanelCurve.Points; point++)
            {
                var x = PanelCurve.At(_prior.Edges[panel], _prior.Edges[panel + 1], point);
                sum += PanelCurve.Weight(_prior.Edges[panel], _prior.Edges[panel + 1], point) * fill.WithSlope(x).Slope * _prior.At(x, panel);
            }
        }

        return sum;
    }
}
