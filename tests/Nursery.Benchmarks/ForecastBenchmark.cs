using System.Diagnostics;
using Nursery.Agronomy;
using Nursery.Agronomy.Emergence;
using Nursery.Agronomy.Forecast;

namespace Nursery.Benchmarks;

/// <summary>Ten thousand batches forecast in one pass, against as many times one of them.</summary>
internal static class ForecastBenchmark
{
    private const int Batches = 10_000;
    private const int Single = 300;
    private const double MostMs = 5;
    private const double MostRatio = 2;

    public static Task<Measured> RunAsync()
    {
        var crop = EmergenceDefaults.Find("Tomato")!;
        var questions = Enumerable.Range(0, Batches).Select(index => Question(crop, index)).ToList();
        for (var round = 0; round < Single; round++)
        {
            EmergenceForecast.Of(questions[0]);
        }

        var clock = Stopwatch.StartNew();
        for (var round = 0; round < Single; round++)
        {
            EmergenceForecast.Of(questions[round]);
        }

        var one = clock.Elapsed / Single;
        clock.Restart();
        var met = questions.Count(question => EmergenceForecast.Of(question).ChanceWantedMet.Value > 0.5);
        var pass = clock.Elapsed;
        return Task.FromResult(new Measured(
            "forecast", FormattableString.Invariant($"forecast of {Batches} batches with 8 counts in one pass ({met} likely to be met; {one.TotalMilliseconds:0.0} ms one alone)"),
            pass, one * Batches, "as many times one alone", "≤ 2 ×, and one ≤ 5 ms", pass <= one * Batches * MostRatio && one.TotalMilliseconds <= MostMs));
    }

    private static ForecastQuestion Question(CropEmergence crop, int index) => new(
        crop.Rate, crop.Curve, 288, 1, new BetaShape(29.75, 5.25), TemperatureRecord.Constant(new Temperature(25)),
        [.. Enumerable.Range(4, 8).Select(day => new EmergenceCount(day, CountKind.Seedlings, Math.Min(250, (day - 3) * (25 + (index % 20))), 288))],
        12, 200 + (index % 60))
    {
        Survival = new BetaShape(38, 2),
    };
}
