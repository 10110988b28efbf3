using System.Diagnostics;
using System.Globalization;
using Nursery.Application.Benches;
using Nursery.Domain.Sites;
using Nursery.Testing.Nurseries;
using Nursery.Web.Components.Pages.Benches;

namespace Nursery.Benchmarks;

/// <summary>Everything the benches page has to know for a full house of 2,000 trays, map and load curve with it, against the bare queries
/// it takes. What comes on top is our own work.</summary>
internal static class BenchesBenchmark
{
    private const int Rounds = 150;
    private const double MostRatio = 1.5;
    private static readonly TimeSpan MostExtra = TimeSpan.FromMilliseconds(20);

    public static async Task<Measured> RunAsync()
    {
        await using var full = await FullNursery.OpenAsync();
        var nursery = full.Nursery;
        var showHouses = nursery.Get<ShowHouses>();
        var season = new Season(nursery.Today);
        using var queries = await Queries.OfAsync(PageAsync);
        var (ours, bare) = (TimeSpan.MaxValue, TimeSpan.MaxValue);
        for (var round = 0; round < Rounds; round++)
        {
            // In turn, so that both meet the same machine.
            ours = Shorter(ours, await TimeAsync(PageAsync));
            bare = Shorter(bare, await TimeAsync(async () => await queries.AskAsync(nursery)));
        }

        return new Measured(
            "benches",
            string.Create(CultureInfo.InvariantCulture, $"benches page of a house of {FullHouse.Benches * FullHouse.Spaces} trays: what it shows, its map and its load curve"),
            ours,
            bare,
            string.Create(CultureInfo.InvariantCulture, $"its {queries.Count} queries alone"),
            "≤ 1.5 × + 20 ms",
            ours <= (MostRatio * bare) + MostExtra);

        async Task PageAsync()
        {
            var houses = await showHouses.HandleAsync(null, nursery.HeadGrower);
            var house = houses.Houses.Single(house => house.Code == FullHouse.Code);
            var map = MapLayout.Of(house, Units.UsCustomary);
            var curve = LoadCurve.Of(await showHouses.LoadAsync(house.Code, season.First, season.Days, nursery.HeadGrower));
            if (map.Benches.Sum(bench => bench.Sets.Sum(set => set.Set.Trays)) != FullHouse.Benches * FullHouse.Spaces || curve.Days != season.Days)
            {
                throw new InvalidOperationException("The page does not show the full house");
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
