using System.Diagnostics;
using System.Text.Json;
using Nursery.Planning.Problems;
using Nursery.Planning.Search;
using Nursery.Planning.Tests.Instances;
using Xunit;

namespace Nursery.Planning.Tests.Search;

/// <summary>No plan is cheaper than the bound. Plans are random ones: batches placed in a random order, on benches and at times passed over
/// at random, some of them bettered.</summary>
public sealed class BoundTests
{
    private const int PlansOfEach = 250;

    /// <summary>10,000 plans with NURSERY_ALL_PLANS=1; a tenth of them else.</summary>
    private static readonly int Problems = Environment.GetEnvironmentVariable("NURSERY_ALL_PLANS") == "1" ? 40 : 4;

    [Fact]
    public async Task Bound_RandomPlans_AreNeverCheaper()
    {
        var closest = double.PositiveInfinity;
        for (var seed = 1; seed <= Problems; seed++)
        {
            var problem = seed % 2 == 0 ? SmallNursery.Make((ulong)seed) : InventedNursery.Make(14, 4, 1, seed, 0.9 + (0.1 * (seed % 5)));
            var bound = await BoundAsync(problem, seed % 4 < 2 ? "lp" : "mip");
            var model = new SeasonModel(problem, problem.Batches);
            var random = new SplitMix((ulong)seed);
            for (var plan = 0; plan < PlansOfEach; plan++)
            {
                var season = Random(model, random);
                if (plan % 50 == 0)
                {
                    new RuinAndRecreate(season, random).Run(new Budget(2000, null), null, CancellationToken.None);
                }

                Assert.True(season.Cost >= bound, $"problem {seed}, plan {plan}: {season.Cost} is below the bound, {bound}");
                closest = Math.Min(closest, (double)season.Cost / bound);
            }
        }

        // A bound far below every plan would hold too, and say nothing.
        Assert.InRange(closest, 1, 1.2);
    }

    private static Season Random(SeasonModel model, SplitMix random)
    {
        var season = new Season(model);
        season.Zones.Settle();
        var inserter = new Inserter(season, random) { Blink = 0.5 * random.Unit() };
        var order = Enumerable.Range(0, model.Batches.Count).ToArray();
        random.Shuffle(order);
        foreach (var batch in order)
        {
            inserter.Insert(batch);
        }

        season.Zones.Settle();
        return season;
    }

    private static async Task<long> BoundAsync(Problem problem, string how)
    {
        var file = Path.GetTempFileName();
        try
        {
            await File.WriteAllTextAsync(file, PlanningJson.Write(problem), CancellationToken.None);
            var start = new ProcessStartInfo("dotnet") { RedirectStandardOutput = true, ArgumentList = { Program(), file, how, "60" } };
            using var process = Process.Start(start)!;
            var answer = await process.StandardOutput.ReadToEndAsync();
            await process.WaitForExitAsync();
            return JsonDocument.Parse(answer.Trim().Split('\n')[^1]).RootElement.GetProperty("bound").GetInt64();
        }
        finally
        {
            File.Delete(file);
        }
    }

    /// <summary>Where the build beside this one left it.</summary>
    private static string Program()
    {
        var built = new DirectoryInfo(AppContext.BaseDirectory);
        var root = built.Parent!.Parent!.Parent!.Parent!.Parent!.FullName;
        return Path.Combine(root, "src", "Nursery.Bounds", "bin", built.Parent.Name, built.Name, "Nursery.Bounds.dll");
    }
}
