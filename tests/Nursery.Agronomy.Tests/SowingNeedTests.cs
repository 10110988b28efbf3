using CsCheck;
using Xunit;

namespace Nursery.Agronomy.Tests;

public sealed class SowingNeedTests
{
    /// <summary>By hand: one seed at 0.90: 500 ÷ (0.9 × 0.9) = 617.3; two at 0.80: a cell is empty 0.2 × 0.2, 500 ÷ (0.96 × 0.9) = 578.7.</summary>
    [Theory]
    [InlineData(500, 0.90, 1, 618)]
    [InlineData(500, 0.80, 2, 579)]
    [InlineData(9, 1.00, 1, 10)]
    [InlineData(1, 1.00, 50, 2)]
    public void Cells_Plants_EqualsTheSumByHand(int plants, double germination, int seeds, int cells) =>
        Assert.Equal(cells, SowingNeed.Cells(plants, (decimal)germination, seeds));

    /// <summary>Against counting up cell by cell until the average yield is enough, every seed outcome of a cell listed.</summary>
    [Fact]
    public void Cells_AnyInput_IsTheFewestThatGiveThePlantsOnAverage() => Gen
        .Select(Gen.Int[1, 400], Gen.Int[20, 100], Gen.Int[1, 5])
        .Sample(
            (plants, percent, seeds) =>
            {
                var perCell = YieldByListing(percent / 100m, seeds) * SowingNeed.SurvivingShare;
                var cells = 1;
                while (cells * perCell < plants)
                {
                    cells++;
                }

                Assert.Equal(cells, SowingNeed.Cells(plants, percent / 100m, seeds));
            },
            iter: 500);

    [Theory]
    [InlineData(0, 0.9, 1)]
    [InlineData(1, 0, 1)]
    [InlineData(1, 1.01, 1)]
    [InlineData(1, 0.9, 0)]
    [InlineData(1, 0.9, 51)]
    public void Cells_OutOfRange_Throws(int plants, double germination, int seeds) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => SowingNeed.Cells(plants, (decimal)germination, seeds));

    private static decimal YieldByListing(decimal germination, int seeds)
    {
        var some = 0m;
        for (var outcome = 1; outcome < 1 << seeds; outcome++)
        {
            var chance = 1m;
            for (var seed = 0; seed < seeds; seed++)
            {
                chance *= (outcome >> seed & 1) == 1 ? germination : 1 - germination;
            }

            some += chance;
        }

        return some;
    }
}
