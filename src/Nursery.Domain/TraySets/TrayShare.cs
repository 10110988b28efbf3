using Nursery.Domain.Batches;

namespace Nursery.Domain.TraySets;

/// <summary>The cells of a tray set in which a batch lies.</summary>
public sealed class TrayShare
{
    public required Id<TraySet> TraySetId { get; init; }
    public required Id<Batch> BatchId { get; init; }
    public required int Cells { get; set; }

    /// <summary>Its first row of cells, counted through all trays of the set; null when the trays are its own.</summary>
    public int? FirstRow { get; init; }

    /// <summary>How many rows of cells.</summary>
    public int? Rows { get; init; }

    /// <summary>Which rows of cells are its own, in words; null when it shares the trays with none.</summary>
    public string? Part(TraySet traySet) => OwnRows(traySet)?.Words(traySet.Trays);

    /// <summary>Which rows of cells of one tray are its own, in words; null when none is, or when it shares the trays with none.</summary>
    public string? PartIn(TraySet traySet, int tray) => OwnRows(traySet)?.WordsIn(tray);

    private CellRows? OwnRows(TraySet traySet) => FirstRow is { } first && Rows is { } rows
        ? new CellRows(new SpaceRun(first, rows), CellGrid.Of(traySet.CellsPerTray).Rows)
        : null;
}
