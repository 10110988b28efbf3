namespace Nursery.Agronomy.Sowing;

/// <summary>How much to sow so that enough usable plants come with a chance.</summary>
/// <param name="WantedPlants">Usable plants (or clumps) wanted, 1 to 1,000,000.</param>
/// <param name="Prior">Chance of a seed to emerge: mean and how much batches differ.</param>
/// <param name="CellsPerTray">1 to 2000.</param>
public sealed record SowingQuestion(int WantedPlants, BetaShape Prior, int CellsPerTray)
{
    /// <summary>Chance asked for; 0.95 unless told.</summary>
    public Fraction Confidence { get; init; } = new(0.95);

    /// <summary>What survives of the emerged; null for all. Mean 0.95 with a + b = 40 is a usual guess, 0.90 where damping-off is common
    /// (from memory).</summary>
    public BetaShape? Survival { get; init; }

    /// <summary>Of two seeds of one cell, 0 to 0.9; 0.05–0.1 from memory.</summary>
    public double WithinCellCorrelation { get; init; }

    /// <summary>Chance that a whole tray is lost, 0 to 0.5; 0.005–0.01 from memory.</summary>
    public double TrayLoss { get; init; }

    public Keep Keep { get; init; } = Keep.One;

    public SowingCosts Costs { get; init; } = new();

    /// <exception cref="InputOutOfRange">An input outside its range.</exception>
    internal void Check()
    {
        InputOutOfRange.Within(WantedPlants, 1, 1_000_000, "wantedPlants", "plants");
        InputOutOfRange.Within(CellsPerTray, 1, 2000, "cellsPerTray", "cells");
        if (Confidence.Value is < 0.01 or > 0.9999)
        {
            throw InputOutOfRange.Of(Confidence.Value, "confidence", "", "0.01 to 0.9999");
        }

        InputOutOfRange.Within(WithinCellCorrelation, 0, 0.9, "withinCellCorrelation", "");
        InputOutOfRange.Within(TrayLoss, 0, 0.5, "trayLoss", "");
        Costs.Check();
    }
}
