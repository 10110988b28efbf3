using Nursery.Agronomy.Growth;
using Xunit;

namespace Nursery.Agronomy.Tests.Growth;

public sealed class ReadyWindowTests
{
    [Fact]
    public void Of_IndependentParts_AddAsTheRootOfSquares()
    {
        var window = ReadyWindow.Of(new Interval(8, 5, 12), new Interval(40, 36, 43));
        Assert.Equal((48d, 48 - 5d, 48 + 5d), (window.Median, window.Low, window.High));
    }

    [Fact]
    public void WeeksAround_EightWeeks_IsATenthOnBothSides() => Assert.Equal((7.2, 8.8), (ReadyWindow.WeeksAround(8).Low, Math.Round(ReadyWindow.WeeksAround(8).High, 9)));

    [Fact]
    public void Of_OutOfOrder_NamesTheInput() =>
        Assert.Equal("growing", Assert.Throws<InputOutOfRange>(() => ReadyWindow.Of(new Interval(8, 5, 12), new Interval(40, 41, 43))).Input);
}
