using Nursery.Domain.TraySets;
using Xunit;

namespace Nursery.Domain.Tests.TraySets;

public sealed class CellRowsTests
{
    /// <summary>Common plug trays, rows × cells in a row (common practice, no source).</summary>
    [Theory]
    [InlineData(50, 10, 5)]
    [InlineData(72, 12, 6)]
    [InlineData(98, 14, 7)]
    [InlineData(105, 15, 7)]
    [InlineData(128, 16, 8)]
    [InlineData(200, 20, 10)]
    [InlineData(288, 24, 12)]
    [InlineData(1, 1, 1)]
    [InlineData(7, 7, 1)]
    public void Of_CommonTrays_AreTwiceAsLongAsWide(int cells, int rows, int across) =>
        Assert.Equal(new CellGrid(rows, across), CellGrid.Of(cells));

    [Theory]
    [InlineData(1, 4, 1, "cell rows 1–4")]
    [InlineData(5, 1, 1, "cell row 5")]
    [InlineData(9, 8, 2, "tray 1 cell rows 9–12, tray 2 cell rows 1–4")]
    [InlineData(9, 42, 5, "tray 1 cell rows 9–12, trays 2–4, tray 5 cell rows 1–2")]
    [InlineData(1, 24, 2, "trays 1–2")]
    [InlineData(9, 18, 3, "tray 1 cell rows 9–12, tray 2, tray 3 cell rows 1–2")]
    public void Words_Rows_NameTraysAndRows(int first, int rows, int trays, string words) =>
        Assert.Equal(words, new CellRows(new SpaceRun(first, rows), 12).Words(trays));
}
