using MathNet.Numerics;

namespace Nursery.Agronomy.Sowing;

/// <summary>One seed a cell, and a patch tray beside it: its seedlings are moved into blanks, the usual answer of the trade.</summary>
/// <param name="Cells">Cells to be full.</param>
/// <param name="PatchSeeds">Seeds sown beside them.</param>
/// <param name="PatchTrays">Open trays they need.</param>
/// <param name="Chance">That enough plants become usable.</param>
/// <param name="ExpectedMoves">Seedlings moved on average.</param>
/// <param name="ExpectedMinutes">Minutes that takes.</param>
/// <param name="Cost">In the site's currency.</param>
public sealed record PatchOption(
    int Cells, int PatchSeeds, int PatchTrays, double Chance, double ExpectedMoves, double ExpectedMinutes, double Cost)
{
    /// <summary>Seconds to move one seedling into a blank (from memory).</summary>
    public const double SecondsPerMove = 10;

    /// <summary>Seeds an open tray takes (from memory).</summary>
    private const int SeedsPerOpenTray = 500;
    private const int MostPatchSeeds = 10_000_000;

    /// <summary>The fewest cells whose survivors alone would do with half the risk, then the fewest patch seeds. Of n cells and m patch seeds
    /// E ~ beta-binomial(n + m) emerge, min(n, E) cells are filled, and of those the survivors count. Whole-tray loss is left out.</summary>
    /// <param name="question">What is wanted; kept is one plant a cell.</param>
    /// <exception cref="InputOutOfRange">An input outside its range.</exception>
    public static PatchOption Of(SowingQuestion question)
    {
        question.Check();
        var wanted = question.WantedPlants;
        var survive = question.Survival is { } survival
            ? UsableShare.Of(UsableShare.Over(survival), survival, null, null, new CellFill(1, 1, 0))
            : null;
        double Survivors(int filled) => survive?.Chance(filled, wanted) ?? (filled >= wanted ? 1 : 0);
        var cells = FirstFrom(wanted, MostPatchSeeds, count => Survivors(count) >= 1 - ((1 - question.Confidence.Value) / 2));
        var known = new Dictionary<int, double>();
        double Chance(int patch) => Filled(cells, patch, question.Prior).Where(item => item.Filled >= wanted && item.Mass > 1e-13).Sum(item =>
            item.Mass * (known.TryGetValue(item.Filled, out var chance) ? chance : known[item.Filled] = Survivors(item.Filled)));
        var seeds = FirstFrom(0, MostPatchSeeds, patch => Chance(patch) >= question.Confidence.Value);
        var full = Filled(cells, seeds, question.Prior).Sum(item => item.Mass * item.Filled);
        var moves = full - (cells * question.Prior.Mean);
        var trays = (seeds + SeedsPerOpenTray - 1) / SeedsPerOpenTray;
        var minutes = Math.Max(0, moves) * SecondsPerMove / 60;
        var costs = question.Costs;
        var heated = ((cells - 1) / question.CellsPerTray) + 1 + trays;
        var cost = ((cells + seeds) * costs.Seed) + ((cells + (trays * question.CellsPerTray)) * (costs.Cell + costs.Mix)) + (minutes * 60 * costs.ThinSecond)
            + (heated * costs.HeatDay * costs.HeatDays) + ((cells - full) * costs.Blank);
        return new PatchOption(cells, seeds, trays, Math.Min(1, Chance(seeds)), Math.Max(0, moves), minutes, cost);
    }

    /// <summary>Cells filled, with the chance of each number; all of 'every cell' in one.</summary>
    private static IEnumerable<(int Filled, double Mass)> Filled(int cells, int patch, BetaShape prior)
    {
        var total = cells + patch;
        var (below, constant) = (0d, SpecialFunctions.GammaLn(total + 1) - SpecialFunctions.BetaLn(prior.A, prior.B));
        for (var up = 0; up < cells; up++)
        {
            var mass = Math.Exp(constant - SpecialFunctions.GammaLn(up + 1) - SpecialFunctions.GammaLn(total - up + 1)
                + SpecialFunctions.BetaLn(up + prior.A, total - up + prior.B));
            below += mass;
            yield return (up, mass);
        }

        yield return (cells, Math.Max(0, 1 - below));
    }

    private static int FirstFrom(int start, int most, Func<int, bool> isEnough)
    {
        if (isEnough(start))
        {
            return start;
        }

        var (few, step) = (start, Math.Max(4, start / 16));
        while (!isEnough(few + step))
        {
            (few, step) = (few + step, step * 2);
            if (few > most)
            {
                throw InputOutOfRange.Of(most, "wantedPlants", "seeds", "what a patch tray can reach");
            }
        }

        var enough = few + step;
        while (enough - few > 1)
        {
            var middle = few + ((enough - few) / 2);
            (few, enough) = isEnough(middle) ? (few, middle) : (middle, enough);
        }

        return enough;
    }
}
