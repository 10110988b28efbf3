using CsCheck;
using Nursery.Domain;
using Xunit;

namespace Nursery.Domain.Tests;

public sealed class SpaceRunTests
{
    private static readonly Gen<SpaceRun> Runs = Gen.Select(Gen.Int[1, 30], Gen.Int[1, 15], (first, count) => new SpaceRun(first, count));

    [Fact]
    public void OverlapsAndContains_AnyTwoRuns_AgreeWithTheirSpaces() => Gen.Select(Runs, Runs).Sample((left, right) =>
    {
        var (ours, others) = (Spaces(left), Spaces(right));
        Assert.Equal(ours.Intersect(others).Any(), left.Overlaps(right));
        Assert.Equal(!others.Except(ours).Any(), left.Contains(right));
        Assert.Equal(ours.Max(), left.Last);
    });

    [Theory]
    [InlineData(3, 1, "3")]
    [InlineData(3, 4, "3–6")]
    public void ToString_Run_ReadsAsPeopleWrite(int first, int count, string text) =>
        Assert.Equal(text, new SpaceRun(first, count).ToString());

    private static List<int> Spaces(SpaceRun run) => [.. Enumerable.Range(run.First, run.Count)];
}
