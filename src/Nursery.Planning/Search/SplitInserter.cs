using Nursery.Planning.Problems;

namespace Nursery.Planning.Search;

/// <summary>Places a batch in parts: the longest free runs of the zones on a level, and of the benches of a band, until all its
/// trays stand. Every part beyond the first costs a split.</summary>
internal sealed class SplitInserter(Season season)
{
    private const int MostParts = 4;
    private readonly SeasonModel _model = season.Model;
    private readonly List<(int First, int Count)> _runs = [];
    private readonly List<Run> _free = [];
    private readonly Dictionary<int, List<Run>?> _benches = [];

    public Place Cheapest(int batch, int below)
    {
        var modes = _model.Modes;
        var found = Place.None;
        _benches.Clear();
        for (var mode = modes.Start[batch]; mode < modes.Start[batch + 1] && modes.Cost[mode] + _model.Prices.Split < below; mode++)
        {
            if (!_benches.TryGetValue(modes.Stay[mode], out var benches))
            {
                benches = BenchRuns(batch, mode);
                _benches[modes.Stay[mode]] = benches;
            }

            if (benches is null || HeatRuns(batch, mode, out var price) is not { } heat)
            {
                continue;
            }

            var extra = ((heat.Count + benches.Count - 2) * _model.Prices.Split) + Moved(batch, heat[0].Area, benches[0].Area);
            if (modes.Cost[mode] + price + extra < below)
            {
                below = modes.Cost[mode] + price + extra;
                found = new Place
                {
                    Mode = mode,
                    Extra = extra,
                    Zone = heat[0].Area,
                    Bench = benches[0].Area,
                    Parts = new Parts([.. heat], [.. benches]),
                };
            }
        }

        return found;
    }

    private int Moved(int batch, int zone, int bench) =>
        (_model.NowZone[batch] >= 0 && _model.NowZone[batch] != zone ? _model.Prices.MovedPlace : 0)
        + (_model.NowBench[batch] >= 0 && _model.NowBench[batch] != bench ? _model.Prices.MovedPlace : 0);

    private List<Run>? HeatRuns(int batch, int mode, out int price)
    {
        var modes = _model.Modes;
        int sow = modes.Sow[mode], emerge = modes.Emerge[mode], level = modes.Level[mode];
        _free.Clear();
        price = 0;
        for (var zone = 0; zone < _model.Zones; zone++)
        {
            var open = true;
            for (var week = sow / 7; week <= (emerge - 1) / 7 && open; week++)
            {
                open = (season.Zones.Open(week, level)[zone >> 6] >> (zone & 63) & 1) != 0;
            }

            if (open && season.Loads.AtMost(zone, sow, emerge, _model.Spaces[zone] - 1))
            {
                AddFree(zone, sow, emerge);
            }
        }

        if (Longest(_model.Before[batch], _model.Before[batch]) is not { } runs)
        {
            return null;
        }

        for (var index = 0; index < runs.Count; index++)
        {
            var zone = runs[index].Area;
            price += runs.FindIndex(run => run.Area == zone) == index
                ? season.Zones.PriceOf(zone, level, sow / 7, (emerge - 1) / 7) : 0;
        }

        return runs;
    }

    private List<Run>? BenchRuns(int batch, int mode)
    {
        var modes = _model.Modes;
        int emerge = modes.Emerge[mode], ready = modes.Ready[mode];
        var harden = ready - _model.HardeningDays;
        if (!season.Loads.AtMost(season.Hardening, harden, ready, _model.HardeningSpaces - _model.After[batch]))
        {
            return null;
        }

        _free.Clear();
        foreach (var bench in modes.Band[mode] == BenchUse.Warm ? _model.WarmBenches : _model.CoolBenches)
        {
            if (season.Loads.AtMost(bench, emerge, harden, _model.Spaces[bench] - 1))
            {
                AddFree(bench, emerge, harden);
            }
        }

        return Longest(_model.Before[batch], _model.After[batch]);
    }

    private void AddFree(int area, int from, int to)
    {
        season.Bits.FreeRuns(area, from, to, _runs);
        foreach (var (first, count) in _runs)
        {
            _free.Add(new Run((short)area, (short)first, (short)count, 0, 0));
        }
    }

    /// <summary>The longest free runs that together hold the spaces after spacing; the spaces before lie at each run's start.</summary>
    private List<Run>? Longest(int before, int after)
    {
        // Stable, so that the same problem gives the same plan.
        var runs = new List<Run>();
        var (leftBefore, leftAfter) = (before, after);
        foreach (var run in _free.OrderByDescending(run => run.Count).ThenBy(run => run.Area).ThenBy(run => run.First).Take(MostParts))
        {
            var countAfter = Math.Min(run.Count, leftAfter);
            var count = leftAfter == countAfter ? leftBefore : Math.Min(leftBefore, (int)((long)countAfter * before / after));
            if (count < 1)
            {
                return null;
            }

            runs.Add(new Run(run.Area, run.First, (short)count, run.First, (short)countAfter));
            (leftBefore, leftAfter) = (leftBefore - count, leftAfter - countAfter);
            if (leftAfter == 0)
            {
                // The last run takes what is left, which rounding may have made more than it can hold.
                return leftBefore == 0 && runs[^1].Count <= runs[^1].CountAfter ? runs : null;
            }
        }

        return null;
    }
}
