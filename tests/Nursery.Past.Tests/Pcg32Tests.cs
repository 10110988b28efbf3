using Xunit;

namespace Nursery.Past.Tests;

public sealed class Pcg32Tests
{
    /// <summary>The first numbers of seed 42, stream 54, as the demonstration program of the generator's authors prints them (from memory).</summary>
    [Fact]
    public void Next_SeedAndStreamOfTheDemonstration_GivesItsNumbers()
    {
        var random = new Pcg32(42, 54);

        Assert.Equal(
            [0xa15c02b7u, 0x7b47f409u, 0xba1d3330u, 0x83d2f293u, 0xbfa4784bu, 0xcbed606eu],
            Enumerable.Range(0, 6).Select(_ => random.Next()));
    }

    [Fact]
    public void Normal_ManyDraws_HaveMeanZeroAndDeviationOne()
    {
        var random = new Pcg32(7, 1);
        var drawn = Enumerable.Range(0, 20_000).Select(_ => random.Normal()).ToList();

        // Five standard errors of either.
        Assert.InRange(drawn.Average(), -0.036, 0.036);
        Assert.InRange(Math.Sqrt(drawn.Average(value => value * value)), 0.975, 1.025);
    }
}
