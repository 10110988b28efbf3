using System.Numerics;
using Nursery.Planning.Problems;

namespace Nursery.Planning.Search;

/// <summary>Finds the cheapest place for one batch in a season as it stands: whole in one zone and on one bench when there is such a
/// place, else in parts. Modes are tried from the cheapest, and none that cannot beat the best so far.</summary>
internal sealed class Inserter
{
    private const int FewBenches = 16;
    private readonly Season _season;
    private readonly SeasonModel _model;
    private readonly ModeTable _modes;
    private readonly SplitInserter _splits;
    private readonly SplitMix _random;
    private readonly int[] _benchKnown;
    private readonly Place[] _benchOf;
    private readonly int[] _benchExtra;
    private readonly ulong[] _zones;
    private readonly ulong[] _kept;
    private int _stamp;

    public Inserter(Season season, SplitMix random)
    {
        (_season, _model, _modes, _random) = (season, season.Model, season.Model.Modes, random);
        _splits = new SplitInserter(season);
        _benchKnown = new int[Math.Max(1, _modes.MostStays)];
        _benchOf = new Place[_benchKnown.Length];
        _benchExtra = new int[_benchKnown.Length];
        _zones = new ulong[season.Zones.MaskWords];
        _kept = new ulong[season.Zones.MaskWords];
    }

    /// <summary>Part of the modes passed over at random, so that the search does not fall into the same hole again.</summary>
    public double Blink { get; set; }

    /// <summary>Part of the batches that may not cost as much as being unplaced which are tried in parts.</summary>
    public double Parts { get; set; } = 1;

    /// <summary>Puts the batch where it is cheapest; leaves it unplaced when that is cheaper or there is no place.</summary>
    public bool Insert(int batch) => Insert(batch, _model.UnplacedCost(batch));

    /// <summary>The same, but only at a cost below one.</summary>
    public bool Insert(int batch, int below)
    {
        var place = Cheapest(batch, below, out var cost);
        var parts = below >= _model.UnplacedCost(batch) || Parts >= 1 || _random.Chance(Parts);
        if (parts && (place.Mode < 0 || cost > _modes.Cost[_modes.Start[batch]] + (2 * _model.Prices.Split) + (_model.UnplacedCost(batch) / 2)))
        {
            var split = _splits.Cheapest(batch, place.Mode < 0 ? below : cost);
            place = split.Mode >= 0 ? split : place;
        }

        if (place.Mode < 0)
        {
            return false;
        }

        _season.Put(batch, place);
        _season.Zones.Settle();
        return true;
    }

    private Place Cheapest(int batch, int below, out int best)
    {
        best = below;
        var found = Place.None;
        _stamp++;
        var end = _modes.Start[batch + 1];
        for (var mode = _modes.Start[batch]; mode < end && _modes.Cost[mode] < best; mode++)
        {
            if (Blink > 0 && _random.Chance(Blink))
            {
                continue;
            }

            var stay = _modes.Stay[mode];
            if (_benchKnown[stay] == _stamp && (_benchOf[stay].Bench < 0 || _benchExtra[stay] + _modes.Cost[mode] >= best))
            {
                continue;
            }

            var price = CheapestZone(batch, mode, best - _modes.Cost[mode], out var zone, out var zoneFirst);
            if (zone < 0)
            {
                continue;
            }

            if (_benchKnown[stay] != _stamp)
            {
                FindBench(batch, mode, stay);
            }

            var extra = _benchExtra[stay] + ZoneExtra(batch, zone);
            var cost = _modes.Cost[mode] + price + _benchExtra[stay];
            if (_benchOf[stay].Bench >= 0 && cost < best)
            {
                best = cost;
                found = _benchOf[stay];
                (found.Mode, found.Extra, found.Zone, found.ZoneFirst) = (mode, extra, (short)zone, (short)zoneFirst);
            }
        }

        return found;
    }

    private int ZoneExtra(int batch, int zone) => _model.NowZone[batch] >= 0 && _model.NowZone[batch] != zone ? _model.Prices.MovedPlace : 0;

    private int CheapestZone(int batch, int mode, int below, out int found, out int foundFirst)
    {
        (found, foundFirst) = (-1, -1);
        int sow = _modes.Sow[mode], emerge = _modes.Emerge[mode], level = _modes.Level[mode];
        int firstWeek = sow / 7, lastWeek = (emerge - 1) / 7;
        _season.Zones.Open(firstWeek, level).CopyTo(_zones);
        _season.Zones.Kept(firstWeek, level).CopyTo(_kept);
        for (var week = firstWeek + 1; week <= lastWeek; week++)
        {
            var open = _season.Zones.Open(week, level);
            var kept = _season.Zones.Kept(week, level);
            for (var word = 0; word < open.Length; word++)
            {
                _zones[word] &= open[word];
                _kept[word] &= kept[word];
            }
        }

        // Zones that are on all the while anyhow come first: mostly one of them will do, and none can be cheaper.
        var spaces = _model.Before[batch];
        for (var index = 0; index < 2 * _zones.Length; index++)
        {
            var word = index % _zones.Length;
            for (var left = index < _zones.Length ? _kept[word] : _zones[word] & ~_kept[word]; left != 0; left &= left - 1)
            {
                var zone = (word << 6) + BitOperations.TrailingZeroCount(left);
                var price = _season.Zones.PriceOf(zone, level, firstWeek, lastWeek) + ZoneExtra(batch, zone);
                if (price < below && _season.Loads.AtMost(zone, sow, emerge, _model.Spaces[zone] - spaces))
                {
                    var first = _season.Bits.Find(zone, sow, emerge, emerge, spaces, spaces, out _);
                    if (first >= 0)
                    {
                        (below, found, foundFirst) = (price, zone, first);
                        if (price == 0)
                        {
                            return 0;
                        }
                    }
                }
            }
        }

        return below;
    }

    private void FindBench(int batch, int mode, int stay)
    {
        _benchKnown[stay] = _stamp;
        _benchOf[stay] = Place.None;
        _benchOf[stay].Bench = -1;
        int emerge = _modes.Emerge[mode], ready = _modes.Ready[mode];
        var harden = ready - _model.HardeningDays;
        var spacing = emerge + ((harden - emerge) / 2);
        int before = _model.Before[batch], after = _model.After[batch];
        if (!_season.Loads.AtMost(_season.Hardening, harden, ready, _model.HardeningSpaces - after)
            || !_season.HasRoom(_modes.Band[mode], emerge, spacing, harden, before, after))
        {
            return;
        }

        var now = _model.NowBench[batch];
        var benches = _modes.Band[mode] == BenchUse.Warm ? _model.WarmBenches : _model.CoolBenches;
        if (now >= 0 && Array.IndexOf(benches, now) >= 0 && Try(now))
        {
            _benchExtra[stay] = 0;
            return;
        }

        // In a large nursery a few benches, others each time, are enough for the search and much faster.
        var few = Blink > 0 && benches.Length > FewBenches;
        var start = few ? _random.Below(benches.Length) : 0;
        for (var index = 0; index < (few ? FewBenches : benches.Length); index++)
        {
            var bench = benches[(start + index) % benches.Length];
            if (Try(bench))
            {
                _benchExtra[stay] = now >= 0 && now != bench ? _model.Prices.MovedPlace : 0;
                return;
            }
        }

        bool Try(int bench)
        {
            if (!_season.Loads.AtMost(bench, emerge, spacing, _model.Spaces[bench] - before)
                || !_season.Loads.AtMost(bench, spacing, harden, _model.Spaces[bench] - after))
            {
                return false;
            }

            var first = _season.Bits.Find(bench, emerge, spacing, harden, before, after, out var firstAfter);
            if (first < 0)
            {
                return false;
            }

            (_benchOf[stay].Bench, _benchOf[stay].BenchFirst, _benchOf[stay].BenchFirstAfter) =
                ((short)bench, (short)first, (short)firstAfter);
            return true;
        }
    }
}
