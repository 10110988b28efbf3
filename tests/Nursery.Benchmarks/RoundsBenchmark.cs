using System.Diagnostics;
using System.Globalization;
using System.Text.RegularExpressions;

namespace Nursery.Benchmarks;

/// <summary>The round of a day of 500 tasks, the whole answer as a browser gets it from the program, against the bare queries it takes.
/// What comes on top is our own work: sign-in, rules, drawing, sending.</summary>
internal static partial class RoundsBenchmark
{
    private const int Rounds = 150;

    /// <summary>Water and a look of each, a move of most, and the looks and the scouting of the places.</summary>
    private const int Batches = 187;
    private const int LeastTasks = 500;
    private const double MostRatio = 2;
    private static readonly TimeSpan MostExtra = TimeSpan.FromMilliseconds(20);

    public static async Task<Measured> RunAsync()
    {
        await using var served = await ServedNursery.OpenAsync(Batches);
        using var tablet = await served.SignedInAsync();
        var page = await PageAsync();
        var tasks = Card().Count(page);
        if (tasks < LeastTasks || Expected().Count(page) < Batches)
        {
            throw new InvalidOperationException($"The round shows {tasks} tasks, {Expected().Count(page)} with what is expected: that is not the day meant");
        }

        using var queries = await Queries.OfAsync(PageAsync);
        var rows = await queries.AskAsync(served.Nursery);
        var (ours, bare) = (TimeSpan.MaxValue, TimeSpan.MaxValue);
        for (var round = 0; round < Rounds; round++)
        {
            // In turn, so that both meet the same machine.
            ours = Shorter(ours, await TimeAsync(async () => Check(Card().Count(await PageAsync()), tasks, "tasks")));
            bare = Shorter(bare, await TimeAsync(async () => Check(await queries.AskAsync(served.Nursery), rows, "rows")));
        }

        return new Measured(
            "rounds",
            string.Create(CultureInfo.InvariantCulture, $"the Rounds page of {tasks} tasks, the whole answer over HTTP ({page.Length / 1024} KiB)"),
            ours,
            bare,
            string.Create(CultureInfo.InvariantCulture, $"its {queries.Count} queries alone ({rows} rows)"),
            "≤ 2 × + 20 ms",
            ours <= (MostRatio * bare) + MostExtra);

        Task<string> PageAsync() => tablet.GetStringAsync(new Uri("/rounds", UriKind.Relative));
    }

    private static void Check(int found, int should, string what)
    {
        if (found != should)
        {
            throw new InvalidOperationException($"{found} {what} instead of {should}: not the same work");
        }
    }

    private static async Task<TimeSpan> TimeAsync(Func<Task> work)
    {
        var watch = Stopwatch.StartNew();
        await work();
        return watch.Elapsed;
    }

    private static TimeSpan Shorter(TimeSpan one, TimeSpan other) => one < other ? one : other;

    [GeneratedRegex("<article class=\"tick-card")]
    private static partial Regex Card();

    [GeneratedRegex("Expected today")]
    private static partial Regex Expected();
}
