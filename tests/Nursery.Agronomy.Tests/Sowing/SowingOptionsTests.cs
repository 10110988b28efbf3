using CsCheck;
using MathNet.Numerics;
using Nursery.Agronomy.Sowing;
using Xunit;

namespace Nursery.Agronomy.Tests.Sowing;

public sealed class SowingOptionsTests
{
    /// <summary>Beta-binomial closed form, summed term by term with logarithms of the gamma function.</summary>
    [Theory]
    [InlineData(100, 29.75, 5.25, 131)]
    [InlineData(100, 340, 60, 125)]
    [InlineData(500, 10.2, 1.8, 700)]
    [InlineData(1, 2, 3, 4)]
    [InlineData(20, 0.5, 0.5, 60)]
    [InlineData(2000, 90, 10, 2300)]
    [InlineData(50, 1, 1, 99)]
    [InlineData(5000, 9000, 1000, 5560)]
    public void Chance_OneSeedACell_IsTheBetaBinomialTo1E9(int wanted, double a, double b, int cells)
    {
        var options = new SowingOptions(new SowingQuestion(wanted, new BetaShape(a, b), 72));
        Assert.Equal(BetaBinomialTail(wanted, cells, a, b), options.Chance(1, cells).Value, 1e-9);
    }

    /// <summary>With a = b = 1 every count is equally likely (tests/reference/13b row 2).</summary>
    [Fact]
    public void Chance_FlatPrior_IsDiscreteUniform()
    {
        for (var cells = 1; cells <= 40; cells++)
        {
            Assert.Equal((cells - 7 + 1d) / (cells + 1), cells < 7 ? (cells - 6d) / (cells + 1) : new SowingOptions(new SowingQuestion(7, new BetaShape(1, 1), 72)).Chance(1, cells).Value, 1e-9);
        }
    }

    /// <summary>Against plain integration over p with many thin slices.</summary>
    [Theory]
    [InlineData(2, 1, 0, 0.7, 20)]
    [InlineData(3, 1, 0.1, 0.6, 35)]
    [InlineData(5, 1, 0, 0.5, 12)]
    [InlineData(8, 3, 0.05, 0.7, 35)]
    [InlineData(15, 10, 0.1, 0.8, 60)]
    public void Chance_SeveralSeedsACell_IsTheSlicedIntegral(int seeds, int least, double correlation, double mean, double size)
    {
        var prior = BetaShape.Of(new Fraction(mean), size);
        var options = new SowingOptions(new SowingQuestion(150, prior, 72) { Keep = new Keep(least, 15), WithinCellCorrelation = correlation });
        foreach (var cells in new[] { 155, 180, 240, 400 })
        {
            const int slices = 40_000;
            var (sum, all) = (0d, 0d);
            for (var slice = 0; slice < slices; slice++)
            {
                var p = (slice + 0.5) / slices;
                var density = Math.Pow(p, prior.A - 1) * Math.Pow(1 - p, prior.B - 1);
                all += density;
                sum += density < 1e-18 ? 0 : density * SpecialFunctions.BetaRegularized(150, cells - 149, Filled(seeds, least, correlation, p));
            }

            Assert.Equal(sum / all, options.Chance(seeds, cells).Value, 1e-7);
        }
    }

    [Theory]
    [InlineData(1, 0.85, 35, 0.95, 40)]
    [InlineData(2, 0.7, 12, 0.9, 20)]
    public void Chance_WithSurvival_IsTheDoubleIntegral(int seeds, double mean, double size, double survival, double survivalSize)
    {
        var (prior, dies) = (BetaShape.Of(new Fraction(mean), size), BetaShape.Of(new Fraction(survival), survivalSize));
        var options = new SowingOptions(new SowingQuestion(100, prior, 72) { Survival = dies });
        var (ps, ss) = (Slices(prior, 700), Slices(dies, 500));
        foreach (var cells in new[] { 120, 140, 170 })
        {
            var sum = 0d;
            foreach (var (p, pWeight) in ps)
            {
                var filled = Filled(seeds, 1, 0, p);
                foreach (var (s, sWeight) in ss)
                {
                    sum += pWeight * sWeight * SpecialFunctions.BetaRegularized(100, cells - 99, filled * s);
                }
            }

            Assert.Equal(sum, options.Chance(seeds, cells).Value, 1e-9);
        }
    }

    /// <summary>Two steps give the same when one of them is certain: a survival near 1 that does not vary, against none.</summary>
    [Fact]
    public void Chance_SurvivalNearlyCertain_IsThatWithoutLoss()
    {
        var question = new SowingQuestion(100, new BetaShape(29.75, 5.25), 72);
        Assert.Equal(
            new SowingOptions(question).Chance(1, 130).Value,
            new SowingOptions(question with { Survival = new BetaShape(1e6, 1) }).Chance(1, 130).Value, 1e-5);
    }

    /// <summary>Seeds for a chance of 95 % that a cell has a plant: two at 80 %, four at 55 % (tests/reference/13b rows 5 and 7).</summary>
    [Theory]
    [InlineData(0.80, 2, 0.96)]
    [InlineData(0.80, 1, 0.80)]
    [InlineData(0.55, 4, 0.95899)]
    [InlineData(0.55, 3, 0.908875)]
    public void Chance_OneCell_IsThatOfAtLeastOneSeed(double germination, int seeds, double chance) => Assert.Equal(
        chance, new SowingOptions(new SowingQuestion(1, BetaShape.Of(new Fraction(germination), 1e6), 72)).Chance(seeds, 1).Value, 2e-5);

    /// <summary>By hand: seed that all comes up in a tray of 72 and one of 28 cells, each lost with chance 0.1: 100 plants need both, 72 the
    /// full one, 28 either.</summary>
    [Theory]
    [InlineData(100, 0.81)]
    [InlineData(72, 0.9)]
    [InlineData(28, 0.99)]
    public void Chance_WholeTraysLost_IsThatOfTheTraysLeft(int wanted, double chance) => Assert.Equal(
        chance, new SowingOptions(new SowingQuestion(wanted, new BetaShape(1e6, 0.05), 72) { TrayLoss = 0.1 }).Chance(1, 100).Value, 2e-4);

    /// <summary>Computed for this page by simulation as well: 100 plants at 85 %, survival 0.97, 95 % sure.</summary>
    [Theory]
    [InlineData(400)]
    [InlineData(35)]
    [InlineData(12)]
    public void Fewest_MoreSpreadBetweenBatches_NeedsMoreCells(double size)
    {
        var option = new SowingOptions(Usual(size)).Of(1);
        Assert.Equal(size switch { 400 => 131, 35 => 142, _ => 158 }, option.Cells);
    }

    [Fact]
    public void Fewest_AnyQuestion_IsEnoughAndOneLessIsNot() => Gen
        .Select(Gen.Int[1, 800], Gen.Double[0.4, 0.98], Gen.Double[5, 200], Gen.Int[1, 5], Gen.Double[0, 0.1], Gen.Double[0, 0.02])
        .Sample(
            (wanted, mean, size, seeds, correlation, loss) =>
            {
                var options = new SowingOptions(new SowingQuestion(wanted, BetaShape.Of(new Fraction(mean), size), 72)
                {
                    Survival = new BetaShape(38, 2),
                    WithinCellCorrelation = correlation,
                    TrayLoss = loss,
                    Confidence = new Fraction(0.9),
                });
                var option = options.Of(seeds);
                Assert.Equal(option.Chance, options.Chance(seeds, option.Cells).Value, 1e-12);
                Assert.True(option.Chance >= 0.9);
                Assert.True(options.Chance(seeds, option.Cells - 1).Value < 0.9);
                Assert.Equal(((option.Cells - 1) / 72) + 1, option.Trays);
                Assert.InRange(option.ExpectedUsable, 0, option.Cells);
                Assert.InRange(options.Chance(seeds, Math.Max(0, option.Cells - 20)).Value, 0, option.Chance);
            },
            iter: 25);

    /// <summary>Trade fact, common practice, no source: with cheap seed at 70–80 % germination two or three seeds a cell are best.</summary>
    [Theory]
    [InlineData(0.70)]
    [InlineData(0.75)]
    [InlineData(0.80)]
    public void Best_CheapSeed_IsTwoOrThreeACell(double germination)
    {
        var options = new SowingOptions(new SowingQuestion(500, BetaShape.Of(new Fraction(germination)), 72)
        {
            Survival = new BetaShape(38, 2),
            Costs = new SowingCosts(Seed: 0.005, Cell: 0.06, Mix: 0.01, ThinSecond: 0.005),
        });
        Assert.InRange(options.All([1, 2, 3, 4, 5]).MinBy(option => option.Cost)!.SeedsPerCell, 2, 3);
    }

    [Fact]
    public void Question_OutOfRange_NamesInputUnitAndRange()
    {
        var good = Usual(35);
        Check(good with { WantedPlants = 0 }, "wantedPlants");
        Check(good with { Confidence = new Fraction(1) }, "confidence");
        Check(good with { CellsPerTray = 0 }, "cellsPerTray");
        Check(good with { WithinCellCorrelation = double.NaN }, "withinCellCorrelation");
        Check(good with { TrayLoss = 0.6 }, "trayLoss");
        Check(good with { Costs = new SowingCosts(Seed: -1) }, "costs.seed");
        Assert.Throws<InputOutOfRange>(() => new SowingOptions(good with { Keep = new Keep(3, 5) }).Of(2));
        Assert.Throws<InputOutOfRange>(() => new SowingOptions(good).Of(16));
        Assert.Throws<InputOutOfRange>(() => new BetaShape(0, 1));
        Assert.Throws<InputOutOfRange>(() => new Keep(3, 2));
    }

    private static void Check(SowingQuestion question, string input)
    {
        var error = Assert.Throws<InputOutOfRange>(() => new SowingOptions(question));
        Assert.Equal(input, error.Input);
        Assert.NotEmpty(error.Range);
    }

    private static SowingQuestion Usual(double size) => new(100, BetaShape.Of(new Fraction(0.85), size), 72)
    {
        Survival = BetaShape.Of(new Fraction(0.97), 1e6),
    };

    private static double Filled(int seeds, int least, double correlation, double p)
    {
        var sum = 0d;
        for (var count = least; count <= seeds; count++)
        {
            if (correlation == 0)
            {
                sum += SpecialFunctions.Binomial(seeds, count) * Math.Pow(p, count) * Math.Pow(1 - p, seeds - count);
            }
            else
            {
                var (a, b) = (p * (1 - correlation) / correlation, (1 - p) * (1 - correlation) / correlation);
                sum += SpecialFunctions.Binomial(seeds, count) * Math.Exp(SpecialFunctions.BetaLn(count + a, seeds - count + b) - SpecialFunctions.BetaLn(a, b));
            }
        }

        return Math.Min(1, sum);
    }

    private static double BetaBinomialTail(int wanted, int cells, double a, double b)
    {
        var sum = 0d;
        for (var count = wanted; count <= cells; count++)
        {
            sum += Math.Exp(
                SpecialFunctions.GammaLn(cells + 1) - SpecialFunctions.GammaLn(count + 1) - SpecialFunctions.GammaLn(cells - count + 1)
                + SpecialFunctions.BetaLn(count + a, cells - count + b) - SpecialFunctions.BetaLn(a, b));
        }

        return sum;
    }

    private static List<(double Value, double Weight)> Slices(BetaShape shape, int count)
    {
        var rule = new MathNet.Numerics.Integration.GaussLegendreRule(0, 1, count);
        var slices = rule.Abscissas.Zip(
            rule.Weights, (x, weight) => (x, weight * Math.Exp(((shape.A - 1) * Math.Log(x)) + ((shape.B - 1) * Math.Log(1 - x))))).ToList();
        var total = slices.Sum(slice => slice.Item2);
        return [.. slices.Select(slice => (slice.x, slice.Item2 / total))];
    }
}
