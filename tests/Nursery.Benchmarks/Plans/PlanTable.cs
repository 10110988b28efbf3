using System.Diagnostics;
using System.Globalization;
using System.Text.Json;

namespace Nursery.Benchmarks.Plans;

/// <summary>The whole table of docs/benchmarks.md: every row in a process of its own, so that its memory is its own.</summary>
internal static class PlanTable
{
    private const double OverFull = 1.40;

    public static int Run(string[] args)
    {
        var sizes = Array.IndexOf(args, "--sizes") is >= 0 and var at && at + 1 < args.Length ? args[at + 1].Split(',') : ["S", "M", "L", "XL"];
        var runs = new List<PlanRun>();
        Console.WriteLine("| size | seed | load | cost | cost ÷ bound | positioned ÷ bound | cost ÷ first-fit | first-fit ÷ bound | late | unplaced trays | violations | s | MB |");
        Console.WriteLine("|---|---|---|---|---|---|---|---|---|---|---|---|---|");
        foreach (var (size, seed, load) in Rows(sizes))
        {
            var run = Child(size, seed, load, bound: load < OverFull && !args.Contains("--no-bound"));
            runs.Add(run);
            Console.WriteLine(Row(run));
        }

        var missed = sizes.SelectMany(size => Missed(PlanSize.Of(size), [.. runs.Where(run => run.Size == size)])).ToList();
        foreach (var sentence in missed)
        {
            Console.WriteLine($"Missed: {sentence}");
        }

        Console.WriteLine(JsonSerializer.Serialize(runs, PlanBenchmark.Json));
        return missed.Count == 0 ? 0 : 1;
    }

    private static IEnumerable<(string Size, int Seed, double Load)> Rows(string[] sizes)
    {
        foreach (var size in sizes)
        {
            foreach (var load in size is "S" or "M" ? new[] { 0.90, 0.85, 0.95 } : [0.90])
            {
                for (var seed = 1; seed <= (size is "S" or "M" ? 5 : 1); seed++)
                {
                    yield return (size, seed, load);
                }
            }

            if (size is "S" or "M")
            {
                yield return (size, 2, OverFull);
                yield return (size, 3, OverFull);
            }
        }
    }

    private static PlanRun Child(string size, int seed, double load, bool bound)
    {
        // 'dotnet run' starts the program by its own name, 'dotnet exec' as an argument of dotnet.
        var own = Environment.ProcessPath!;
        var start = new ProcessStartInfo(own) { RedirectStandardOutput = true };
        string[] args =
        [
            .. Path.GetFileNameWithoutExtension(own) == "dotnet" ? [Path.Combine(AppContext.BaseDirectory, "Nursery.Benchmarks.dll")] : Array.Empty<string>(),
            "plan", "--size", size, "--seed", Text(seed), "--load", Text(load),
            .. bound ? ["--bound"] : Array.Empty<string>(),

            // The over-full bar asks for ten seconds at S too, and a step takes twice as long there.
            .. load >= OverFull ? ["--iterations", Text(PlanSize.Of(size).Steps / (size == "S" ? 5 : 2))] : Array.Empty<string>(),
        ];
        foreach (var arg in args)
        {
            start.ArgumentList.Add(arg);
        }

        using var process = Process.Start(start)!;
        var lines = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        if (process.ExitCode > 1)
        {
            throw new InvalidOperationException($"{size} seed {seed} load {Text(load)} ended with code {process.ExitCode}.");
        }

        return JsonSerializer.Deserialize<PlanRun>(lines.Trim().Split('\n')[^1], PlanBenchmark.Json)!;
    }

    private static string Row(PlanRun run) => string.Create(
        CultureInfo.InvariantCulture,
        $"| {run.Size} | {run.Seed} | {run.Load:0.00} | {run.Cost} | {run.ToBound:0.000} | {Part(run.PositionedCost, run.Bound)} | {(double)run.Cost / run.FirstFit:0.000} | {Part(run.FirstFit, run.Bound)} | {run.Late} | {run.UnplacedTrays} | {run.Violations} | {run.Seconds:0.0} | {run.PeakMb} |");

    private static string Part(long cost, long? bound) =>
        bound is { } known ? ((double)cost / known).ToString("0.000", CultureInfo.InvariantCulture) : "";

    private static IEnumerable<string> Missed(PlanSize size, List<PlanRun> runs)
    {
        foreach (var run in runs)
        {
            var name = string.Create(CultureInfo.InvariantCulture, $"{run.Size} seed {run.Seed} load {run.Load:0.00}");
            if (run.Violations > 0)
            {
                yield return $"{name}: {run.Violations} violations";
            }

            if (run.Load <= 0.90 && run.UnplacedTrays > 0)
            {
                yield return $"{name}: {run.UnplacedTrays} trays unplaced";
            }

            if ((double)run.Cost / run.FirstFit > (run.Load >= OverFull ? 0.65 : size.ToFirstFit))
            {
                yield return $"{name}: above its part of first-fit";
            }

            if (run.ToBound > size.WorstToBound)
            {
                yield return $"{name}: above {size.WorstToBound} × bound";
            }

            if (run.Bound is { } bound && ((double)run.FirstFit / bound is < 4 or > 35) && run.Load.Equals(0.90))
            {
                yield return $"{name}: first-fit ÷ bound is not 4 to 35";
            }

            if (run.PeakMb > 250)
            {
                yield return $"{name}: {run.PeakMb} MB";
            }
        }

        foreach (var load in runs.Where(run => run.Bound != null).GroupBy(run => run.Load))
        {
            if (Median(load.Select(run => run.ToBound!.Value)) > size.MedianToBound)
            {
                yield return string.Create(CultureInfo.InvariantCulture, $"{size.Name} load {load.Key:0.00}: median above {size.MedianToBound} × bound");
            }

            if (Median(load.Select(run => (double)run.PositionedCost / run.Bound!.Value)) > size.PositionedToBound)
            {
                yield return string.Create(CultureInfo.InvariantCulture, $"{size.Name} load {load.Key:0.00}: positioned median above {size.PositionedToBound} × bound");
            }
        }
    }

    private static double Median(IEnumerable<double> values)
    {
        var sorted = values.Order().ToList();
        return sorted[sorted.Count / 2];
    }

    private static string Text(IFormattable value) => value.ToString(null, CultureInfo.InvariantCulture);
}
