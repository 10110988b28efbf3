namespace Nursery.Agronomy.Forecast;

/// <summary>What a resow would be of.</summary>
/// <param name="Prior">Chance of a seed: of another lot its label, of the same lot what this batch shows.</param>
/// <param name="SeedsPerCell">1 to 50.</param>
/// <param name="CellsPerTray">1 to 2000; a resow takes whole trays.</param>
/// <param name="MostTrays">0 to 10,000: what seed there is.</param>
public sealed record ResowQuestion(BetaShape Prior, int SeedsPerCell, int CellsPerTray, int MostTrays)
{
    /// <summary>What survives of the emerged; null for all.</summary>
    public BetaShape? Survival { get; init; }

    internal void Check()
    {
        InputOutOfRange.Within(SeedsPerCell, 1, 50, "seedsPerCell", "seeds");
        InputOutOfRange.Within(CellsPerTray, 1, 2000, "cellsPerTray", "cells");
        InputOutOfRange.Within(MostTrays, 0, 10_000, "mostTrays", "trays");
    }
}
