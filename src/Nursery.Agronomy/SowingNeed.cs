namespace Nursery.Agronomy;

/// <summary>The plain sowing rule of the first release: cells = plants ÷ (chance that a cell has a plant × what survives).
/// It gives the average need, not a chance to meet it; common practice, no source.</summary>
public static class SowingNeed
{
    /// <summary>Share of emerged cells that become usable plants (from memory; common practice allows 10 % for loss and culls).</summary>
    public const decimal SurvivingShare = 0.90m;

    /// <summary>Cells to sow, 1 or more.</summary>
    /// <param name="plants">Plants wanted, 1 or more.</param>
    /// <param name="germination">Label germination, above 0, to 1.</param>
    /// <param name="seedsPerCell">1–50.</param>
    /// <exception cref="ArgumentOutOfRangeException">An input outside its range.</exception>
    public static int Cells(int plants, decimal germination, int seedsPerCell)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(plants, 1);
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(germination, 0);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(germination, 1);
        ArgumentOutOfRangeException.ThrowIfLessThan(seedsPerCell, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(seedsPerCell, 50);
        var empty = 1m;
        for (var seed = 0; seed < seedsPerCell; seed++)
        {
            empty *= 1 - germination;
        }

        return (int)Math.Ceiling(plants / ((1 - empty) * SurvivingShare));
    }
}
