using Nursery.Agronomy;
using Xunit;

namespace Nursery.Agronomy.Tests;

public sealed class TraySpacesTests
{
    private const decimal Inch = 2.54m;

    /// <summary>Whole trays counted by hand on squared paper; sizes of benches are common practice, no source.</summary>
    [Theory]
    [InlineData(500, 165, 54)]
    [InlineData(1620, 165, 174)]
    [InlineData(54.5, 27.7, 1)]
    [InlineData(54, 27, 0)]
    public void On_PlainBench_TakesWholeTrays(double length, double width, int spaces) =>
        Assert.Equal(spaces, TraySpaces.Standard.On((decimal)length, (decimal)width).Spaces);

    [Fact]
    public void On_BenchesByTheInch_AgreeWithTheColumnRuleOnEveryWidth()
    {
        for (var length = 22; length <= 300; length += 7)
        {
            for (var width = 22; width <= 96; width++)
            {
                Assert.Equal(Slots(length, width), TraySpaces.Standard.On(length * Inch, width * Inch).Spaces);
            }
        }
    }

    [Fact]
    public void On_SmallBenches_AgreeWithEveryCutTried()
    {
        for (var length = 30; length <= 230; length += 11)
        {
            for (var width = 30; width <= 170; width += 9)
            {
                Assert.Equal(EveryCut(length, width), TraySpaces.Standard.On(length, width).Spaces);
            }
        }
    }

    [Fact]
    public void On_Mat_LaysAllTraysOneWay()
    {
        var mat = TraySpaces.Standard with { OneWay = true };

        // 60 × 60 in: two by five one way make ten, and the 17 in left take a column of two the other way.
        Assert.Equal((10, 12), (mat.On(60 * Inch, 60 * Inch).Spaces, TraySpaces.Standard.On(60 * Inch, 60 * Inch).Spaces));
        Assert.Equal(54, mat.On(500, 165).Spaces);
    }

    [Fact]
    public void On_Gap_IsKeptBetweenTraysAndNotAtTheEnds()
    {
        var spaced = TraySpaces.Standard with { GapCm = 2, OneWay = true };

        Assert.Equal(2, spaced.On((2 * 27.686m) + 2, 54.356m).Spaces);
        Assert.Equal(1, spaced.On((2 * 27.686m) + 1.9m, 54.356m).Spaces);
    }

    [Fact]
    public void On_Reach_LeavesWhatNoArmReaches()
    {
        var oneSide = TraySpaces.Standard with { ReachCm = 75, OpenSides = 1 };

        Assert.Equal(TraySpaces.Standard.On(500, 75).Spaces, oneSide.On(500, 165).Spaces);
        Assert.Equal(TraySpaces.Standard.On(500, 150).Spaces, (oneSide with { OpenSides = 2 }).On(500, 165).Spaces);
    }

    /// <summary>A second way to the same number: i columns with the short side along, the rest with the long side along, for both
    /// directions of the bench.</summary>
    private static int Slots(int lengthIn, int widthIn) => Math.Max(OneDirection(lengthIn, widthIn), OneDirection(widthIn, lengthIn));

    private static int OneDirection(decimal length, decimal width) => Enumerable.Range(0, (int)(length / 10.9m) + 1)
        .Max(columns => (columns * (int)(width / 21.4m)) + ((int)((length - (columns * 10.9m)) / 21.4m) * (int)(width / 10.9m)));

    /// <summary>Every guillotine cut by the millimeter, each part laid its better way.</summary>
    private static int EveryCut(int length, int width)
    {
        var best = Better(length, width);
        for (var cut = 0.1m; cut < length; cut += 0.1m)
        {
            best = Math.Max(best, Better(cut, width) + Better(length - cut, width));
        }

        for (var cut = 0.1m; cut < width; cut += 0.1m)
        {
            best = Math.Max(best, Better(length, cut) + Better(length, width - cut));
        }

        return best;
    }

    private static int Better(decimal length, decimal width) => Math.Max(
        (int)(length / 27.686m) * (int)(width / 54.356m), (int)(length / 54.356m) * (int)(width / 27.686m));
}
