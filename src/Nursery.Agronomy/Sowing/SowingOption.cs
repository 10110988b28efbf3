namespace Nursery.Agronomy.Sowing;

/// <summary>One way to sow.</summary>
/// <param name="SeedsPerCell">Seeds dropped into each cell.</param>
/// <param name="Cells">Fewest that reach the chance asked for.</param>
/// <param name="Trays">Cells rounded up to whole trays.</param>
/// <param name="Seeds">Of those cells.</param>
/// <param name="Chance">That enough plants become usable, for exactly these cells.</param>
/// <param name="ExpectedUsable">Usable plants on average.</param>
/// <param name="ExpectedBlanks">Cells without enough seedlings on average.</param>
/// <param name="Cost">Of all that, in the site's currency.</param>
public sealed record SowingOption(
    int SeedsPerCell, int Cells, int Trays, long Seeds, double Chance, double ExpectedUsable, double ExpectedBlanks, double Cost);
