using Nursery.Domain.Batches;
using Nursery.Domain.Ledger;
using Xunit;

namespace Nursery.Domain.Tests.Batches;

public sealed class CountedEmergenceTests
{
    [Theory]
    [InlineData(CountWhat.Seedlings, 50, 72, 2, 50, 50)]
    [InlineData(CountWhat.Seedlings, 100, 72, 2, 72, 100)]
    [InlineData(CountWhat.CellsUp, 60, 72, 1, 60, 60)]
    [InlineData(CountWhat.Blanks, 12, 72, 1, 60, 60)]
    [InlineData(CountWhat.CellsUp, 0, 72, 3, 0, 0)]
    [InlineData(CountWhat.CellsUp, 72, 72, 3, 72, 216)]
    [InlineData(CountWhat.CellsUp, 75, 100, 2, 75, 100)]
    public void Seedlings_Count_AreSolvedForOneSeed(CountWhat what, int value, int cells, int seeds, int up, decimal seedlings)
    {
        // The last row by hand: 75 % of cells up with 2 seeds each is 1 − (1 − F)², so F = 0.5 of 200 seeds.
        var count = new Count(what, value, cells, false, seeds);

        Assert.Equal((up, seedlings), (CountedEmergence.CellsUp(count), CountedEmergence.Seedlings(count)));
    }

    [Theory]
    [InlineData(1, 0.85)]
    [InlineData(2, 0.60)]
    [InlineData(2, 0.90)]
    [InlineData(3, 0.50)]
    [InlineData(5, 0.30)]
    public void Seedlings_ManySimulatedCells_FindTheTrueRate(int seedsPerCell, double germination)
    {
        const int cells = 200_000;
        var random = new Random(20260302);
        var up = Enumerable.Range(0, cells).Count(_ => Enumerable.Range(0, seedsPerCell).Any(_ => random.NextDouble() < germination));

        var seedlings = CountedEmergence.Seedlings(new Count(CountWhat.CellsUp, up, cells, false, seedsPerCell));

        // Five standard errors of the estimate, by the delta method.
        var share = 1 - Math.Pow(1 - germination, seedsPerCell);
        var slope = Math.Pow(1 - share, (1.0 / seedsPerCell) - 1) / seedsPerCell;
        var allowed = 5 * slope * Math.Sqrt(share * (1 - share) / cells);
        Assert.Equal(germination, (double)seedlings / (cells * seedsPerCell), allowed);
    }
}
