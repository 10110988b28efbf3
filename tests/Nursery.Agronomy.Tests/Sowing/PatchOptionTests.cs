using MathNet.Numerics.Distributions;
using Nursery.Agronomy.Sowing;
using Xunit;

namespace Nursery.Agronomy.Tests.Sowing;

public sealed class PatchOptionTests
{
    private static readonly SowingQuestion Question = new(200, BetaShape.Of(new Fraction(0.8)), 72)
    {
        Survival = new BetaShape(38, 2),
        Costs = new SowingCosts(Seed: 0.02, Cell: 0.06, ThinSecond: 0.005),
    };

    [Fact]
    public void Patch_SimulatedBatches_MeetTheChance()
    {
        var option = PatchOption.Of(Question);
        var random = new Random(5);
        const int batches = 20_000;
        var (met, moved) = (0, 0d);
        for (var batch = 0; batch < batches; batch++)
        {
            var p = Beta.Sample(random, Question.Prior.A, Question.Prior.B);
            var up = Binomial.Sample(random, p, option.Cells);
            var spare = Binomial.Sample(random, p, option.PatchSeeds);
            var moves = Math.Min(option.Cells - up, spare);
            moved += moves;
            met += Binomial.Sample(random, Beta.Sample(random, 38, 2), up + moves) >= 200 ? 1 : 0;
        }

        Assert.True(option.Chance >= 0.95);
        Assert.Equal(option.Chance, (double)met / batches, 0.006);
        Assert.Equal(option.ExpectedMoves, moved / batches, 0.5);
        Assert.Equal(option.ExpectedMoves / 6, option.ExpectedMinutes, 1e-9);
    }

    /// <summary>Trade fact, common practice, no source: patching needs fewer cells than one seed a cell alone.</summary>
    [Fact]
    public void Patch_AgainstOneSeedACell_TakesFewerCells() =>
        Assert.True(PatchOption.Of(Question).Cells < new SowingOptions(Question).Of(1).Cells);

    [Fact]
    public void Patch_NothingDies_KeepsExactlyTheWantedCells()
    {
        var option = PatchOption.Of(Question with { Survival = null });
        Assert.Equal(200, option.Cells);
        Assert.True(option.Chance >= 0.95);
    }

    /// <summary>National Gardening Association (tests/reference/03b, S24): a pea of 0.25 in goes about 0.5 in deep.</summary>
    [Fact]
    public void Depth_PeaOfTheCourse_IsHalfAnInch()
    {
        Assert.Equal(0.5, SowingDepth.Of(Length.FromInches(0.25), needsLight: false).From.Inches, 1e-12);
        Assert.Equal(0, SowingDepth.Of(Length.FromInches(0.25), needsLight: true).To.Meters);
        Assert.Equal(0, SowingDepth.Of(Length.FromMillimeters(0.4), needsLight: false).To.Meters);
        Assert.Throws<InputOutOfRange>(() => SowingDepth.Of(Length.FromMillimeters(double.NaN), false));
    }
}
