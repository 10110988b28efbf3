using System.Globalization;
using System.Text.Json;
using Nursery.Benchmarks;
using Nursery.Benchmarks.Plans;

// Each benchmark times the product against a plain baseline in the same run: what counts is the ratio, not the seconds.
// usage: dotnet run -c Release --project tests/Nursery.Benchmarks [-- NAME …]; without a name it runs all of them.
// It prints the table of docs/benchmarks.md and, as the last line, the same as a JSON object. Exit code 1 when a bar is missed.
// plan has its own arguments and its own table: plan --size S --seed 1 --load 0.90, plan --table.
if (args is ["plan", .. var planArgs])
{
    return PlanBenchmark.Run(planArgs);
}

Dictionary<string, Func<Task<Measured>>> benchmarks = new(StringComparer.Ordinal)
{
    ["first-fit"] = FirstFitBenchmark.RunAsync,
    ["benches"] = BenchesBenchmark.RunAsync,
    ["drag"] = DragBenchmark.RunAsync,
    ["past"] = PastBenchmark.RunAsync,
    ["raise-tasks"] = RaiseTasksBenchmark.RunAsync,
    ["rounds"] = RoundsBenchmark.RunAsync,
    ["entries"] = EntriesBenchmark.TogetherAsync,
    ["entries-single"] = EntriesBenchmark.OneByOneAsync,
    ["tags"] = TagsBenchmark.RunAsync,
    ["germination"] = GerminationBenchmark.RunAsync,
    ["sowing"] = SowingBenchmark.RunAsync,
    ["forecast"] = ForecastBenchmark.RunAsync,
};
if (args.FirstOrDefault(name => !benchmarks.ContainsKey(name)) is { } unknown)
{
    Console.Error.WriteLine($"There is no benchmark '{unknown}'; there are: {string.Join(", ", benchmarks.Keys)}.");
    return 2;
}

var all = new List<Measured>();
foreach (var name in args.Length > 0 ? args : [.. benchmarks.Keys])
{
    Console.Error.WriteLine($"{name} …");
    all.Add(await benchmarks[name]());
}

Console.WriteLine("| what | ours | baseline | ratio | bar | |");
Console.WriteLine("|---|---|---|---|---|---|");
foreach (var measured in all)
{
    Console.WriteLine(measured.Row);
}

Console.WriteLine(JsonSerializer.Serialize(all.ToDictionary(measured => measured.Name, measured => new
{
    ours_ms = Rounded(measured.Ours.TotalMilliseconds),
    baseline_ms = Rounded(measured.Baseline.TotalMilliseconds),
    ratio = Rounded(measured.Ratio),
    bar = measured.Bar,
    met = measured.Met,
})));
return all.TrueForAll(measured => measured.Met) ? 0 : 1;

static decimal Rounded(double value) => decimal.Parse(value.ToString("0.00", CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
