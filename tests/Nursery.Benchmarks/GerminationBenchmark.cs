using System.Diagnostics;
using System.Globalization;
using Nursery.Application.Germination;
using Nursery.Application.Germination.Curves;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;

namespace Nursery.Benchmarks;

/// <summary>The germination page over half a year, every figure and every curve of every row, against the bare queries it takes. What comes
/// on top is our own work.</summary>
internal static class GerminationBenchmark
{
    private const int Rounds = 20;
    private const double MostRatio = 2;
    private static readonly TimeSpan MostExtra = TimeSpan.FromMilliseconds(100);
    private static readonly CurveSize Room = new(740, 390, LabelHeight: 17, Left: 48, Right: 176, Top: 30, Bottom: 46);

    public static async Task<Measured> RunAsync()
    {
        var own = new TestDatabase();
        await own.InitializeAsync();
        await using var nursery = await TestNursery.OpenAsync(own);
        await using (var database = await nursery.DatabaseAsync())
        {
            await CountedHistory.AddAsync(nursery, database);
        }

        var show = nursery.Get<ShowGermination>();
        using var queries = await Queries.OfAsync(PageAsync);
        var (ours, bare) = (TimeSpan.MaxValue, TimeSpan.MaxValue);
        for (var round = 0; round < Rounds; round++)
        {
            // In turn, so that both meet the same machine.
            ours = Shorter(ours, await TimeAsync(PageAsync));
            bare = Shorter(bare, await TimeAsync(async () => await queries.AskAsync(nursery)));
        }

        await nursery.DisposeAsync();
        await own.DisposeAsync();
        return new Measured(
            "germination",
            string.Create(CultureInfo.InvariantCulture, $"germination page of {CountedHistory.Batches} batches: every rate, time to half and curve"),
            ours,
            bare,
            string.Create(CultureInfo.InvariantCulture, $"its {queries.Count} queries alone"),
            "≤ 2 × + 100 ms",
            ours <= (MostRatio * bare) + MostExtra);

        async Task PageAsync()
        {
            var view = await show.HandleAsync(new GerminationRequest(GerminationKey.Lot), nursery.Manager);
            var charts = view.Rows.Select(row => CurveChart.Of(row.Batches, row.Compared, Room)).ToList();
            if (charts.Sum(chart => chart.Lines.Count) != CountedHistory.Batches
                || charts.Sum(chart => chart.Lines.Sum(line => line.Points.Count - 1)) != CountedHistory.Batches * CountedHistory.Counts
                || view.Rows.Sum(row => row.Item.HalfBatches) != CountedHistory.Batches)
            {
                throw new InvalidOperationException("The page does not show every count");
            }
        }
    }

    private static async Task<TimeSpan> TimeAsync(Func<Task> work)
    {
        var watch = Stopwatch.StartNew();
        await work();
        return watch.Elapsed;
    }

    private static TimeSpan Shorter(TimeSpan one, TimeSpan other) => one < other ? one : other;
}
