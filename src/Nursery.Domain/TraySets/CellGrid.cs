namespace Nursery.Domain.TraySets;

/// <summary>How the cells of a tray lie: rows across its short side, numbered along its length from 1.</summary>
/// <param name="Rows">Rows in a tray.</param>
/// <param name="CellsInRow">Cells in a row.</param>
public readonly record struct CellGrid(int Rows, int CellsInRow)
{
    /// <summary>The grid of a tray with so many cells, 1 or more: the one whose sides are nearest 2 to 1, as the common flat of
    /// about 28 × 54 cm is (common practice, no source). 72 is 12 rows of 6, 128 is 16 of 8, 50 is 10 of 5.</summary>
    public static CellGrid Of(int cellsPerTray)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(cellsPerTray, 1);
        var best = new CellGrid(cellsPerTray, 1);
        for (var across = 2; across * across <= cellsPerTray; across++)
        {
            var grid = new CellGrid(cellsPerTray / across, across);
            best = cellsPerTray % across == 0 && grid.FromTwoToOne < best.FromTwoToOne ? grid : best;
        }

        return best;
    }

    /// <summary>How far from 2 to 1, the same for 1 to 1 and 4 to 1.</summary>
    private double FromTwoToOne => Math.Abs(Math.Log(Rows / (2.0 * CellsInRow)));
}
