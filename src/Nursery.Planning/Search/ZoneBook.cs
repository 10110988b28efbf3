namespace Nursery.Planning.Search;

/// <summary>What every zone is set to and what that costs. Batches lock a zone's weeks to their level; the weeks between are filled
/// by an exact search over weeks × levels, so the price of locking more weeks is read off two running minima.</summary>
internal sealed class ZoneBook
{
    private const int Never = 1 << 28;
    private readonly SeasonModel _model;
    private readonly int _weeks;
    private readonly int _levels;
    private readonly short[] _locks;
    private readonly sbyte[] _level;
    private readonly int[] _into;
    private readonly int[] _outOf;
    private readonly int[] _cost;
    private readonly bool[] _dirty;
    private readonly List<int> _dirtyZones = [];

    /// <summary>Bits of zones a level may be locked on in a week, by (week × Levels + level) × <see cref="MaskWords"/>.</summary>
    private readonly ulong[] _open;

    /// <summary>Likewise, of zones that are locked on the level: one more batch costs no heat there.</summary>
    private readonly ulong[] _kept;

    public readonly int MaskWords;

    public ZoneBook(SeasonModel model)
    {
        _model = model;
        (_weeks, _levels) = (model.Weeks, model.Levels);
        MaskWords = Math.Max(1, (model.Zones + 63) / 64);
        _locks = new short[model.Zones * _weeks];
        _level = new sbyte[model.Zones * _weeks];
        Array.Fill(_level, (sbyte)-1);
        _into = new int[model.Zones * _weeks * _levels];
        _outOf = new int[model.Zones * _weeks * _levels];
        _cost = new int[model.Zones];
        _dirty = new bool[model.Zones];
        _open = new ulong[_weeks * _levels * MaskWords];
        _kept = new ulong[_open.Length];
        for (var zone = 0; zone < model.Zones; zone++)
        {
            for (var week = 0; week < _weeks; week++)
            {
                OpenTo(zone, week, model.Allowed[(zone * _weeks) + week]);
            }

            Price(zone);
            Total += _cost[zone];
        }
    }

    /// <summary>Heat and setpoint changes of all zones, cents; right when nothing is dirty.</summary>
    public long Total { get; private set; }

    public ReadOnlySpan<ulong> Open(int week, int level) => _open.AsSpan(((week * _levels) + level) * MaskWords, MaskWords);

    public ReadOnlySpan<ulong> Kept(int week, int level) => _kept.AsSpan(((week * _levels) + level) * MaskWords, MaskWords);

    public bool IsOpen(int zone, int week, int level) => (Open(week, level)[zone >> 6] >> (zone & 63) & 1) != 0;

    public bool IsLocked(int zone, int week) => _locks[(zone * _weeks) + week] > 0;

    public int LevelOf(int zone, int week) => _level[(zone * _weeks) + week];

    /// <summary>What locking weeks (both included) on a level adds; they must be open to it and the zone not dirty.</summary>
    public int PriceOf(int zone, int level, int first, int last)
    {
        var at = zone * _weeks;
        var all = true;
        for (var week = first; week <= last; week++)
        {
            all &= _locks[at + week] > 0;
        }

        return all
            ? 0
            : _into[((at + first) * _levels) + level] + _outOf[((at + last) * _levels) + level]
                + ((last - first + 1) * _model.Heat[(zone * _levels) + level]) - _cost[zone];
    }

    public void Lock(int zone, int level, int first, int last)
    {
        for (var week = first; week <= last; week++)
        {
            var at = (zone * _weeks) + week;
            if (_locks[at]++ == 0)
            {
                _level[at] = (sbyte)level;
                OpenTo(zone, week, 1u << level);
                _kept[(((week * _levels) + level) * MaskWords) + (zone >> 6)] |= 1UL << (zone & 63);
                Soil(zone);
            }
        }
    }

    public void Unlock(int zone, int first, int last)
    {
        for (var week = first; week <= last; week++)
        {
            var at = (zone * _weeks) + week;
            if (--_locks[at] == 0)
            {
                _kept[(((week * _levels) + _level[at]) * MaskWords) + (zone >> 6)] &= ~(1UL << (zone & 63));
                _level[at] = -1;
                OpenTo(zone, week, _model.Allowed[at]);
                Soil(zone);
            }
        }
    }

    /// <summary>Prices the zones whose locks changed.</summary>
    public void Settle()
    {
        foreach (var zone in _dirtyZones)
        {
            Total -= _cost[zone];
            Price(zone);
            Total += _cost[zone];
            _dirty[zone] = false;
        }

        _dirtyZones.Clear();
    }

    /// <summary>The cheapest levels by week that keep every lock.</summary>
    public int[] Path(int zone)
    {
        var path = new int[_weeks];
        var before = -1;
        for (var week = 0; week < _weeks; week++)
        {
            var best = Never * 2L;
            for (var level = 0; level < _levels; level++)
            {
                if (!May(zone, week, level))
                {
                    continue;
                }

                var change = before >= 0 ? (before == level ? 0 : _model.Prices.SetpointChange) : _into[(((zone * _weeks) + week) * _levels) + level];
                var cost = (long)change + _model.Heat[(zone * _levels) + level] + _outOf[(((zone * _weeks) + week) * _levels) + level];
                if (cost < best)
                {
                    (best, path[week]) = (cost, level);
                }
            }

            before = path[week];
        }

        return path;
    }

    private void Soil(int zone)
    {
        if (!_dirty[zone])
        {
            _dirty[zone] = true;
            _dirtyZones.Add(zone);
        }
    }

    private bool May(int zone, int week, int level)
    {
        var at = (zone * _weeks) + week;
        return _locks[at] > 0 ? _level[at] == level : (_model.Allowed[at] >> level & 1) != 0;
    }

    /// <summary>_into: cheapest way to come to a week on a level, _outOf: to go on from it; both without the week itself.</summary>
    private void Price(int zone)
    {
        var change = _model.Prices.SetpointChange;
        var heat = _model.Heat.AsSpan(zone * _levels, _levels);
        var before = _model.LevelBefore[zone];
        for (var level = 0; level < _levels; level++)
        {
            _into[(zone * _weeks * _levels) + level] = before < 0 || before == level ? 0 : change;
            _outOf[((((zone + 1) * _weeks) - 1) * _levels) + level] = 0;
        }

        var cheapest = Never;
        for (var week = 0; week < _weeks; week++)
        {
            var into = _into.AsSpan(((zone * _weeks) + week) * _levels, _levels);
            cheapest = Cheapest(zone, week, into, heat);
            if (week + 1 < _weeks)
            {
                Spread(zone, week, into, _into.AsSpan(((zone * _weeks) + week + 1) * _levels, _levels), heat, cheapest + change);
            }
        }

        _cost[zone] = cheapest;
        for (var week = _weeks - 1; week > 0; week--)
        {
            var outOf = _outOf.AsSpan(((zone * _weeks) + week) * _levels, _levels);
            cheapest = Cheapest(zone, week, outOf, heat);
            Spread(zone, week, outOf, _outOf.AsSpan(((zone * _weeks) + week - 1) * _levels, _levels), heat, cheapest + change);
        }
    }

    private int Cheapest(int zone, int week, Span<int> costs, Span<int> heat)
    {
        var at = (zone * _weeks) + week;
        if (_locks[at] > 0)
        {
            return costs[_level[at]] + heat[_level[at]];
        }

        var allowed = _model.Allowed[at];
        var cheapest = Never;
        for (var level = 0; level < costs.Length; level++)
        {
            var cost = costs[level] + heat[level];
            cheapest = (allowed >> level & 1) != 0 && cost < cheapest ? cost : cheapest;
        }

        return cheapest;
    }

    private void Spread(int zone, int week, Span<int> costs, Span<int> next, Span<int> heat, int otherwise)
    {
        next.Fill(otherwise);
        var at = (zone * _weeks) + week;
        if (_locks[at] > 0)
        {
            var only = _level[at];
            next[only] = Math.Min(otherwise, costs[only] + heat[only]);
            return;
        }

        var allowed = _model.Allowed[at];
        for (var level = 0; level < costs.Length; level++)
        {
            if ((allowed >> level & 1) != 0)
            {
                next[level] = Math.Min(otherwise, costs[level] + heat[level]);
            }
        }
    }

    private void OpenTo(int zone, int week, uint levels)
    {
        var bit = 1UL << (zone & 63);
        for (var level = 0; level < _levels; level++)
        {
            ref var word = ref _open[(((week * _levels) + level) * MaskWords) + (zone >> 6)];
            word = (levels >> level & 1) != 0 ? word | bit : word & ~bit;
        }
    }
}
