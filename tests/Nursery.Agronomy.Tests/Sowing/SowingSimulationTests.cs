using MathNet.Numerics.Distributions;
using Nursery.Agronomy.Sowing;
using Xunit;

namespace Nursery.Agronomy.Tests.Sowing;

/// <summary>An independent way to the chance: seeds sown on paper, 2.5 million a setting, one by one in what they share (batch, cell, tray).</summary>
public sealed class SowingSimulationTests
{
    private const int Wanted = 200;

    [Theory]
    [InlineData(1, 1, 0.85, 35, 0, 0)]
    [InlineData(2, 1, 0.70, 35, 0.1, 0.01)]
    [InlineData(3, 1, 0.60, 12, 0.05, 0)]
    [InlineData(8, 4, 0.75, 35, 0.1, 0.005)]
    public void Chance_TwoAndAHalfMillionSeedsASetting_AgreesWithinFourStandardErrors(
        int seeds, int least, double mean, double size, double correlation, double trayLoss)
    {
        var (prior, survival) = (BetaShape.Of(new Fraction(mean), size), new BetaShape(38, 2));
        var options = new SowingOptions(new SowingQuestion(Wanted, prior, 72)
        {
            Survival = survival,
            Keep = new Keep(least, 15),
            WithinCellCorrelation = correlation,
            TrayLoss = trayLoss,
            Confidence = new Fraction(0.9),
        });
        var option = options.Of(seeds);
        var random = new Random(20_260_314 + seeds);
        var batches = (int)Math.Ceiling(2_500_000d / option.Seeds);
        var met = 0;
        for (var batch = 0; batch < batches; batch++)
        {
            var (p, s) = (Beta.Sample(random, prior.A, prior.B), Beta.Sample(random, survival.A, survival.B));
            var usable = 0;
            for (var tray = 0; tray < option.Trays; tray++)
            {
                var lost = random.NextDouble() < trayLoss;
                var cells = Math.Min(72, option.Cells - (tray * 72));
                for (var cell = 0; cell < cells; cell++)
                {
                    usable += Up(random, seeds, p, correlation) >= least && random.NextDouble() < s && !lost ? 1 : 0;
                }
            }

            met += usable >= Wanted ? 1 : 0;
        }

        var error = Math.Sqrt(option.Chance * (1 - option.Chance) / batches);
        Assert.Equal(option.Chance, (double)met / batches, 4 * error);
    }

    /// <summary>A cell's seeds: with correlation ρ each next one copies an earlier one or draws anew (the urn of the beta-binomial).</summary>
    private static int Up(Random random, int seeds, double p, double correlation)
    {
        var up = 0;
        for (var seed = 0; seed < seeds; seed++)
        {
            var copies = seed * correlation / (1 - correlation);
            var chance = (p + (correlation == 0 ? 0 : up * correlation / (1 - correlation))) / (1 + copies);
            up += random.NextDouble() < chance ? 1 : 0;
        }

        return up;
    }
}
