namespace Nursery.Agronomy.Sowing;

/// <summary>What to expect of a seed in a cell before anything is counted: the label's or the own record's germination, less the house, times
/// what the temperature leaves.</summary>
public static class SeedPrior
{
    /// <summary>A cell on a mat against a laboratory, points (from memory), until it is learnt by crop and house.</summary>
    public const double UsualHousePoints = -5;

    /// <summary>a + b of batches of a usual house: standard deviation 6 points at 85 % (from memory).</summary>
    public const double UsualSize = 35;

    /// <summary>a + b of a house whose batches differ much (from memory).</summary>
    public const double PoorHouseSize = 12;

    private const double Least = 0.01;
    private const double Most = 0.995;

    /// <summary>The beta distribution of the chance of a seed.</summary>
    /// <param name="germination">Of the label, a test or the own record, aged where it is old.</param>
    /// <param name="normal">Normal seedlings at the temperature: <see cref="Emergence.NormalSeedlings.At"/>.</param>
    /// <param name="housePoints">−60 to 20 points.</param>
    /// <param name="size">a + b, 2 to 10,000.</param>
    /// <exception cref="InputOutOfRange">An input outside its range, or nothing left that could come up.</exception>
    public static BetaShape Of(Fraction germination, Fraction normal, double housePoints = UsualHousePoints, double size = UsualSize) =>
        Find(germination, normal, housePoints, size) ?? throw InputOutOfRange.Of(
            Mean(germination, normal, housePoints), nameof(germination), "", FormattableString.Invariant($"what leaves {Least} or more after house and temperature"));

    /// <summary>As <see cref="Of"/>; null when nothing is left that could come up.</summary>
    /// <exception cref="InputOutOfRange">An input outside its range.</exception>
    public static BetaShape? Find(Fraction germination, Fraction normal, double housePoints = UsualHousePoints, double size = UsualSize)
    {
        InputOutOfRange.Within(housePoints, -60, 20, nameof(housePoints), "points");
        InputOutOfRange.Within(size, 2, 10_000, nameof(size), "");
        var mean = Mean(germination, normal, housePoints);
        return mean < Least ? null : BetaShape.Of(new Fraction(Math.Min(mean, Most)), size);
    }

    /// <summary>What a temperature leaves of what a lot does where it does best; null when nothing is left that could come up.</summary>
    /// <param name="best">Chance of a seed of the lot, as it is believed.</param>
    /// <param name="normal">Normal seedlings at the temperature.</param>
    public static BetaShape? At(BetaShape best, Fraction normal) => best.Mean * normal.Value is >= Least and var mean
        ? BetaShape.Of(new Fraction(Math.Min(mean, Most)), Math.Max(2, best.A + best.B))
        : null;

    private static double Mean(Fraction germination, Fraction normal, double housePoints) =>
        (germination.Value + (housePoints / 100)) * normal.Value;
}
