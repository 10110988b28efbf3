using Nursery.Printing.Drawing;
using Nursery.Printing.Faces;
using Xunit;

namespace Nursery.Printing.Tests;

public class TypefaceTests
{
    public static TheoryData<string> Faces => [.. Enum.GetNames<Face>()];

    [Theory]
    [MemberData(nameof(Faces))]
    public void Drawable_SignsAndAccentedLatin_AreAllInTheFonts(string face)
    {
        const string text = "AZaz09 °–’‘×·…−½€ éüñłżŁŻäöåøæœßçãõğşčřžěőű";

        Assert.Equal(text, Typeface.For(Enum.Parse<Face>(face)).Drawable(text));
    }

    [Theory]
    [InlineData("200 µmol", "200 umol")]
    [InlineData("e\u0301", "é")]
    [InlineData("a\tb\u00ad\u200b", "a b")]
    [InlineData("ﬁne ≥ 5 🌱", "fine ? 5 ?")]
    [InlineData("Ёлка", "????")]
    [InlineData("Riesen\u2011Gurke", "Riesen-Gurke")]
    public void Drawable_CharactersOutsideTheFonts_AreReplacedUnlessInvisible(string text, string expected) =>
        Assert.Equal(expected, Typeface.For(Face.Text).Drawable(text));

    [Fact]
    public void Runs_MixedWord_IsSetFromBothFiles() =>
        Assert.Equal(
            [("next-400-latin-ext", "Ż"), ("next-400-latin", "ó"), ("next-400-latin-ext", "ł"), ("next-400-latin", "ty")],
            Typeface.For(Face.Text).Runs("Żółty"));
}
