using Nursery.Web.Components.Pages.Papers;
using Xunit;

namespace Nursery.Web.Tests.Papers;

public class TypedLineTests
{
    [Theory]
    [InlineData("12", "12 done")]
    [InlineData(" 3 - 5 ", "3 done|4 done|5 done")]
    [InlineData("7c65", "7 done, 65 up")]
    [InlineData("7 C 65 / 72", "7 done, 65 up in 72 cells")]
    [InlineData("9 n not up yet", "9 not yet: not up yet")]
    [InlineData("8-9 n no time", "8 not yet: no time|9 not yet: no time")]
    public void Read_Line_SaysWhatIsMeant(string text, string expected)
    {
        var (lines, wrong) = TypedLine.Read(text, lastLine: 40);

        Assert.Null(wrong);
        Assert.Equal(expected, string.Join('|', lines.Select(line => $"{line.Line} {line.Words}")));
    }

    [Theory]
    [InlineData("0")]
    [InlineData("41")]
    [InlineData("5-3")]
    [InlineData("39-41")]
    [InlineData("done")]
    [InlineData("12 n")]
    [InlineData("12 c")]
    [InlineData("12 c many")]
    [InlineData("3-5 c 60")]
    [InlineData("12 z")]
    public void Read_WhatIsNoLine_SaysWhatIsWrong(string text)
    {
        var (lines, wrong) = TypedLine.Read(text, lastLine: 40);

        Assert.Empty(lines);
        Assert.NotNull(wrong);
    }

    [Fact]
    public void Read_X_TakesTheLineOut() => Assert.True(Assert.Single(TypedLine.Read("12 x", 40).Lines).Out);
}
