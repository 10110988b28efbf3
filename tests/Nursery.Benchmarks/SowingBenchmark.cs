using System.Diagnostics;
using MathNet.Numerics;
using Nursery.Agronomy;
using Nursery.Agronomy.Sowing;

namespace Nursery.Benchmarks;

/// <summary>All numbers of seeds a cell, with survival, against the plain way: a double integral in slices for every number of cells tried.</summary>
internal static class SowingBenchmark
{
    private const int Wanted = 200;
    private const int Slices = 60;
    private const double MostMs = 5;
    private static readonly BetaShape Prior = new(29.75, 5.25);
    private static readonly BetaShape Survival = new(38, 2);

    public static Task<Measured> RunAsync()
    {
        var ours = Best(40, () => new SowingOptions(new SowingQuestion(Wanted, Prior, 72) { Survival = Survival }).All([1, 2, 3, 4, 5]).Sum(option => option.Cells), out var cells);
        var sliced = Best(1, () => Enumerable.Range(1, 5).Sum(Fewest), out var slicedCells);
        return Math.Abs(cells - slicedCells) > 5
            ? throw new InvalidOperationException($"{cells} cells, the baseline {slicedCells}: they do not do the same work")
            : Task.FromResult(new Measured(
                "sowing", $"how much to sow, 1 to 5 seeds a cell ({cells} cells)", ours, sliced, $"a double integral in {Slices} × {Slices} slices a try",
                "≤ 5 ms", ours.TotalMilliseconds <= MostMs));
    }

    private static TimeSpan Best(int rounds, Func<int> work, out int result)
    {
        result = work();
        var best = TimeSpan.MaxValue;
        for (var round = 0; round < rounds; round++)
        {
            var clock = Stopwatch.StartNew();
            result = work();
            best = clock.Elapsed < best ? clock.Elapsed : best;
        }

        return best;
    }

    private static int Fewest(int seeds)
    {
        var (few, enough) = (Wanted - 1, 1000);
        while (enough - few > 1)
        {
            var cells = (few + enough) / 2;
            (few, enough) = Chance(seeds, cells) < 0.95 ? (cells, enough) : (few, cells);
        }

        return enough;
    }

    private static double Chance(int seeds, int cells)
    {
        var (sum, all) = (0d, 0d);
        for (var i = 0; i < Slices; i++)
        {
            for (var j = 0; j < Slices; j++)
            {
                var (p, s) = (0.4 + (0.6 * (i + 0.5) / Slices), 0.7 + (0.3 * (j + 0.5) / Slices));
                var weight = Density(Prior, p) * Density(Survival, s);
                all += weight;
                sum += weight * SpecialFunctions.BetaRegularized(Wanted, cells - Wanted + 1, (1 - Math.Pow(1 - p, seeds)) * s);
            }
        }

        return sum / all;
    }

    private static double Density(BetaShape shape, double x) => Math.Exp(((shape.A - 1) * Math.Log(x)) + ((shape.B - 1) * Math.Log(1 - x)));
}
