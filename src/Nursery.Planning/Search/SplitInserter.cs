using Nursery.Planning.Problems;

namespace Nursery.Planning.Search;

/// <summary>Places a batch in parts: the longest free runs of the zones on a level, and of the benches of a band, until all its
/// trays stand. Every part beyond the first costs a split.</summary>
internal sealed class SplitInserter(Season season)
{
    private const int MostParts = 4;
    private readonly SeasonModel _model = season.Model;
    private readonly List<Run> _free = [];
    private readonly Run[] _longest = new Run[MostParts];
    private readonly Run[] _heat = new Run[MostParts];
    private readonly Run[][] _benches = MakeBenches(season.Model);
    private readonly int[] _benchParts = new int[Math.Max(1, season.Model.Modes.MostStays)];

    public Place Cheapest(int batch, int below)
    {
        var modes = _model.Modes;
        var found = Place.None;
        Array.Fill(_benchParts, -1);
        for (var mode = modes.Start[batch]; mode < modes.Start[batch + 1] && modes.Cost[mode] + _model.Prices.Split < below; mode++)
        {
            var stay = modes.Stay[mode];
            if (_benchParts[stay] == 0)
            {
                continue;
            }

            var heatParts = FindHeat(batch, mode, out var price);
            if (heatParts == 0)
            {
                continue;
            }

            if (_benchParts[stay] < 0)
            {
                _benchParts[stay] = FindBenches(batch, mode, _benches[stay]);
            }

            var benchParts = _benchParts[stay];
            if (benchParts == 0)
            {
                continue;
            }

            var extra = ((heatParts + benchParts - 2) * _model.Prices.Split) + Moved(batch, _heat[0].Area, _benches[stay][0].Area);
            if (modes.Cost[mode] + price + extra < below)
            {
                below = modes.Cost[mode] + price + extra;
                found = new Place
                {
                    Mode = mode,
                    Extra = extra,
                    Zone = _heat[0].Area,
                    Bench = _benches[stay][0].Area,
                    Parts = new Parts(_heat[..heatParts], _benches[stay][..benchParts]),
                };
            }
        }

        return found;
    }

    private static Run[][] MakeBenches(SeasonModel model) =>
        [.. Enumerable.Range(0, Math.Max(1, model.Modes.MostStays)).Select(_ => new Run[MostParts])];

    private int Moved(int batch, int zone, int bench) =>
        (_model.NowZone[batch] >= 0 && _model.NowZone[batch] != zone ? _model.Prices.MovedPlace : 0)
        + (_model.NowBench[batch] >= 0 && _model.NowBench[batch] != bench ? _model.Prices.MovedPlace : 0);

    private int FindHeat(int batch, int mode, out int price)
    {
        var modes = _model.Modes;
        int sow = modes.Sow[mode], emerge = modes.Emerge[mode], level = modes.Level[mode];
        _free.Clear();
        price = 0;
        for (var zone = 0; zone < _model.Zones; zone++)
        {
            var open = season.Loads.AtMost(zone, sow, emerge, _model.Spaces[zone] - 1);
            for (var week = sow / 7; week <= (emerge - 1) / 7 && open; week++)
            {
                open = (season.Zones.Open(week, level)[zone >> 6] >> (zone & 63) & 1) != 0;
            }

            if (open)
            {
                season.Bits.AddFreeRuns(zone, sow, emerge, _free);
            }
        }

        var parts = Longest(_model.Before[batch], _model.Before[batch], _heat);
        for (var index = 0; index < parts; index++)
        {
            var seen = false;
            for (var other = 0; other < index; other++)
            {
                seen |= _heat[other].Area == _heat[index].Area;
            }

            price += seen ? 0 : season.Zones.PriceOf(_heat[index].Area, level, sow / 7, (emerge - 1) / 7);
        }

        return parts;
    }

    private int FindBenches(int batch, int mode, Run[] into)
    {
        var modes = _model.Modes;
        int emerge = modes.Emerge[mode], ready = modes.Ready[mode];
        var harden = ready - _model.HardeningDays;
        if (!season.Loads.AtMost(season.Hardening, harden, ready, _model.HardeningSpaces - _model.After[batch])
            || !season.HasRoom(modes.Band[mode], emerge, emerge + ((harden - emerge) / 2), harden, _model.Before[batch], _model.After[batch]))
        {
            return 0;
        }

        _free.Clear();
        foreach (var bench in modes.Band[mode] == BenchUse.Warm ? _model.WarmBenches : _model.CoolBenches)
        {
            if (season.Loads.AtMost(bench, emerge, harden, _model.Spaces[bench] - 1))
            {
                season.Bits.AddFreeRuns(bench, emerge, harden, _free);
            }
        }

        return Longest(_model.Before[batch], _model.After[batch], into);
    }

    /// <summary>The longest free runs that together hold the spaces after spacing; the spaces before lie at each run's start.
    /// Of equal runs the earlier one, so that the same problem gives the same plan.</summary>
    /// <returns>How many; 0 when they do not suffice.</returns>
    private int Longest(int before, int after, Run[] into)
    {
        var kept = 0;
        foreach (var run in _free)
        {
            var at = kept;
            while (at > 0 && _longest[at - 1].Count < run.Count)
            {
                if (at < MostParts)
                {
                    _longest[at] = _longest[at - 1];
                }

                at--;
            }

            if (at < MostParts)
            {
                _longest[at] = run;
                kept = Math.Min(MostParts, kept + 1);
            }
        }

        var (leftBefore, leftAfter) = (before, after);
        for (var index = 0; index < kept; index++)
        {
            var run = _longest[index];
            var countAfter = Math.Min(run.Count, leftAfter);
            var count = leftAfter == countAfter ? leftBefore : Math.Min(leftBefore, (int)((long)countAfter * before / after));

            // The last run takes what is left, which rounding may have made more than it can hold.
            if (count < 1 || count > countAfter)
            {
                return 0;
            }

            into[index] = new Run(run.Area, run.First, (short)count, run.First, (short)countAfter);
            (leftBefore, leftAfter) = (leftBefore - count, leftAfter - countAfter);
            if (leftAfter == 0)
            {
                return leftBefore == 0 ? index + 1 : 0;
            }
        }

        return 0;
    }
}
