using MathNet.Numerics;
using MathNet.Numerics.Distributions;
using Nursery.Agronomy.Sowing;
using Xunit;

namespace Nursery.Agronomy.Tests.Sowing;

/// <summary>Where one number of seeds a cell becomes cheaper than another, against brute force: 4,000 simulated batches for each
/// germination. Prices (from memory): cell 6 ¢, mix 1 ¢, thinning 0.5 ¢ a second, seed 0.1 to 5 ¢.</summary>
public sealed class SwitchLineTests
{
    private const int Wanted = 300;
    private static readonly double[] SeedPrices = [0.001, 0.002, 0.005, 0.01, 0.02, 0.05];

    [Theory]
    [InlineData(0.50)]
    [InlineData(0.65)]
    [InlineData(0.80)]
    [InlineData(0.90)]
    [InlineData(0.98)]
    public void Best_OverAPriceGrid_IsThatOfBruteForce(double germination)
    {
        var prior = BetaShape.Of(new Fraction(germination));
        var random = new Random(17);
        var batches = Enumerable.Range(0, 4000)
            .Select(_ => (P: Beta.Sample(random, prior.A, prior.B), S: Beta.Sample(random, 38, 2))).ToArray();
        var brute = Enumerable.Range(1, 5).Select(seeds => (Seeds: seeds, Cells: Fewest(batches, seeds), Crowded: batches.Average(batch => Crowded(batch.P, seeds)))).ToList();
        foreach (var price in SeedPrices)
        {
            var costs = new SowingCosts(Seed: price, Cell: 0.06, Mix: 0.01, ThinSecond: 0.005);
            var options = new SowingOptions(new SowingQuestion(Wanted, prior, 72) { Survival = new BetaShape(38, 2), Costs = costs }).All([1, 2, 3, 4, 5]);
            var byBrute = brute.Select(item => (item.Seeds, Cost: item.Cells * ((item.Seeds * price) + 0.07 + (item.Crowded * 3 * 0.005)))).ToList();
            var best = options.MinBy(option => option.Cost)!;

            // Where two ways cost the same within what 4,000 batches can tell, either is right.
            Assert.True(
                byBrute.Single(item => item.Seeds == best.SeedsPerCell).Cost <= byBrute.Min(item => item.Cost) * 1.012,
                $"{germination} at {price}: {best.SeedsPerCell} seeds, brute force {byBrute.MinBy(item => item.Cost).Seeds}");
        }
    }

    private static int Fewest((double P, double S)[] batches, int seeds)
    {
        var shares = batches.Select(batch => (1 - Math.Pow(1 - batch.P, seeds)) * batch.S).ToArray();
        var (few, enough) = (Wanted - 1, 4000);
        while (enough - few > 1)
        {
            var cells = (few + enough) / 2;
            var chance = shares.Average(share => SpecialFunctions.BetaRegularized(Wanted, cells - Wanted + 1, share));
            (few, enough) = chance < 0.95 ? (cells, enough) : (few, cells);
        }

        return enough;
    }

    private static double Crowded(double p, int seeds) => 1 - Math.Pow(1 - p, seeds) - (seeds * p * Math.Pow(1 - p, seeds - 1));
}
