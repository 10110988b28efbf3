using Nursery.Printing.Drawing;
using Nursery.Printing.Faces;
using Xunit;

namespace Nursery.Printing.Tests.Drawing;

public class TextSetterTests
{
    private static readonly TextStyle _code = new(Face.Code, 10, 12);

    private readonly TextSetter _text;

    public TextSetterTests()
    {
        FontCatalog.Use();
        _text = new TextSetter();
    }

    [Theory]
    [InlineData("one two three", 9, 9, "one two|three")]
    [InlineData("one two three", 9, 1, "one two…")]
    [InlineData("abcdefghijkl", 5, 9, "abcde|fghij|kl")]
    [InlineData("abcdefghijkl", 5, 2, "abcde|fghi…")]
    [InlineData("  one   two ", 20, 1, "one two")]
    [InlineData("", 5, 3, "")]
    public void Wrap_MonospacedText_BreaksWhereCountingCharactersSays(string text, int characters, int most, string expected)
    {
        var width = characters * _text.Width("0", _code) + 0.01;

        Assert.Equal(expected, string.Join('|', _text.Wrap(text, _code, width, most)));
    }

    [Fact]
    public void Width_OfTheMonospacedFace_IsItsAdvance()
    {
        // 632 of 1000 units: the hmtx table of the embedded file.
        Assert.Equal(10 * 6.32, _text.Width("PE-114-K12", _code), 0.001);
    }

    [Theory]
    [InlineData("2A", 40)]
    [InlineData("HEATED-BENCH-12", 11)]
    public void Fit_Code_TakesTheGreatestSizeThatFits(string text, double least)
    {
        var style = new TextStyle(Face.CodeBold, 40, 40);

        var fitted = _text.Fit(text, style, 105, least: 8);

        Assert.InRange(fitted.Size, least, 40);
        Assert.True(_text.Width(text, fitted) <= 105);
    }
}
