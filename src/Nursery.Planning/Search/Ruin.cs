namespace Nursery.Planning.Search;

/// <summary>Chooses which batches lose their place before they are placed anew, and what a zone is held to meanwhile.</summary>
internal sealed class Ruin
{
    private const double UnplacedShare = 0.3;
    private const double EdgeShare = 0.4;
    private const int EdgesLookedAt = 3;
    private const int MostBesideEdge = 5;
    private const int RunsLookedAt = 4;
    private readonly Season _season;
    private readonly SeasonModel _model;
    private readonly SplitMix _random;
    private readonly int[] _byDue;
    private readonly int[] _rank;
    private readonly int[] _marked;
    private readonly List<int> _near = [];
    private int _mark;

    public Ruin(Season season, SplitMix random)
    {
        (_season, _model, _random) = (season, season.Model, random);
        _byDue = [.. Enumerable.Range(0, season.Places.Length).OrderBy(batch => season.Model.Due[batch]).ThenBy(batch => batch)];
        _rank = new int[_byDue.Length];
        for (var rank = 0; rank < _byDue.Length; rank++)
        {
            _rank[_byDue[rank]] = rank;
        }

        _marked = new int[_byDue.Length];
    }

    /// <summary>Batches chosen, each once; some may have no place.</summary>
    public List<int> Chosen { get; } = [];

    /// <summary>The first batch chosen is to be placed first: the others made room for it.</summary>
    public bool FirstStays { get; private set; }

    /// <summary>Zone held to a level over weeks while batches are placed anew; -1 is none.</summary>
    public (int Zone, int Level, int First, int Last) Held { get; private set; }

    public void Choose(SearchHeat heat)
    {
        Chosen.Clear();
        _mark++;
        Held = (-1, 0, 0, 0);
        FirstStays = false;
        if (_model.Zones > 0 && _random.Unit() < heat.ZoneShare)
        {
            if (_random.Chance(EdgeShare))
            {
                ChooseEdge();
            }
            else
            {
                ChooseZoneWeeks();
            }
        }
        else if (_model.Zones > 0 && _random.Chance(0.2))
        {
            MakeRoom(Costly(), heat.Runs);
        }
        else
        {
            ChooseNear(Costly(), 2 + _random.Below(heat.Most - 1));
        }
    }

    /// <summary>A batch that costs much more often than one that costs little, one without a place most often.</summary>
    private int Costly()
    {
        if (_season.Unplaced.Length > 0 && _random.Chance(UnplacedShare))
        {
            return _season.Unplaced[_random.Below(_season.Unplaced.Length)];
        }

        var best = _random.Below(_marked.Length);
        var tries = _random.Below(4);
        for (var index = 0; index < tries; index++)
        {
            var other = _random.Below(_marked.Length);
            best = CostOf(other) > CostOf(best) ? other : best;
        }

        return best;
    }

    private int CostOf(int batch)
    {
        ref var place = ref _season.Places[batch];
        return place.Mode < 0 ? _model.UnplacedCost(batch) : _model.Modes.Cost[place.Mode] + place.Extra;
    }

    private void ChooseNear(int batch, int count)
    {
        Add(batch);
        var place = _season.Places[batch];
        var kind = place.Mode < 0 ? 2 : _random.Below(4);
        if (kind < 2)
        {
            _near.Clear();
            var (modes, area) = (_model.Modes, kind == 0 ? place.Zone : place.Bench);
            int day = kind == 0 ? modes.Sow[place.Mode] : modes.Emerge[place.Mode];
            var reach = 4 + _random.Below(14);
            foreach (var other in _season.InArea(area))
            {
                var its = _season.Places[other].Mode;
                if (Math.Abs((kind == 0 ? modes.Sow[its] : modes.Emerge[its]) - day) <= reach)
                {
                    _near.Add(other);
                }
            }

            while (Chosen.Count < count && _near.Count > 0)
            {
                var pick = _random.Below(_near.Count);
                Add(_near[pick]);
                _near[pick] = _near[^1];
                _near.RemoveAt(_near.Count - 1);
            }
        }

        AddByDue(batch, count);
    }

    /// <summary>For one batch in one of its modes: takes away what is in the way in one zone and on one bench.</summary>
    private void MakeRoom(int batch, bool runs)
    {
        var modes = _model.Modes;
        var count = modes.Start[batch + 1] - modes.Start[batch];
        if (count == 0)
        {
            return;
        }

        FirstStays = true;
        Add(batch);

        // The cheap modes lie first.
        var mode = modes.Start[batch] + (int)(count * _random.Unit() * _random.Unit());
        int sow = modes.Sow[mode], emerge = modes.Emerge[mode], level = modes.Level[mode];
        var zone = _random.Below(_model.Zones);
        var (first, last) = (sow / 7, (emerge - 1) / 7);
        var same = true;
        for (var week = first; week <= last; week++)
        {
            same &= !_season.Zones.IsLocked(zone, week) || _season.Zones.LevelOf(zone, week) == level;
        }

        if (same)
        {
            Free(zone, sow, emerge, _model.Before[batch]);
        }
        else
        {
            AddTouching(zone, first, last, one: 1);
        }

        Held = (zone, level, first, last);
        var benches = modes.Band[mode] == BenchUse.Warm ? _model.WarmBenches : _model.CoolBenches;
        var harden = modes.Ready[mode] - _model.HardeningDays;
        Free(benches[_random.Below(benches.Length)], emerge, harden, _model.After[batch]);

        void Free(int area, int from, int to, int spaces)
        {
            if (runs)
            {
                AddOnRun(area, from, to, spaces);
            }
            else
            {
                AddStanding(area, from, to, spaces);
            }
        }
    }

    /// <summary>Batches on a run of spaces of an area on some of these days: of some such runs the one with fewest trays.</summary>
    private void AddOnRun(int area, int from, int to, int spaces)
    {
        var (best, fewest) = (-1, int.MaxValue);
        for (var tries = 0; tries < RunsLookedAt && spaces <= _model.Spaces[area]; tries++)
        {
            var (first, trays) = (_random.Below(_model.Spaces[area] - spaces + 1), 0);
            foreach (var other in _season.InArea(area))
            {
                trays += StandsOn(other, area, from, to, first, spaces) ? _model.Trays[other] : 0;
            }

            (best, fewest) = trays < fewest ? (first, trays) : (best, fewest);
        }

        foreach (var other in _season.InArea(area))
        {
            if (best >= 0 && StandsOn(other, area, from, to, best, spaces))
            {
                Add(other);
            }
        }
    }

    private bool StandsOn(int batch, int area, int from, int to, int first, int spaces)
    {
        var (place, modes, heat) = (_season.Places[batch], _model.Modes, area < _model.Zones);
        int start = heat ? modes.Sow[place.Mode] : modes.Emerge[place.Mode];
        int end = heat ? modes.Emerge[place.Mode] : modes.Ready[place.Mode] - _model.HardeningDays;
        if (start >= to || from >= end)
        {
            return false;
        }

        if (place.Parts is null)
        {
            return heat
                ? Overlap(place.ZoneFirst, _model.Before[batch])
                : Overlap(Math.Min(place.BenchFirst, place.BenchFirstAfter), _model.After[batch]);
        }

        foreach (var run in heat ? place.Parts.Heat : place.Parts.Benches)
        {
            if (run.Area == area && Overlap(run.First, Math.Max(run.Count, run.CountAfter)))
            {
                return true;
            }
        }

        return false;

        bool Overlap(int its, int count) => its < first + spaces && first < its + count;
    }

    /// <summary>Batches that stand in an area on some of these days, from a random one on, until about as many spaces would be free.</summary>
    private void AddStanding(int area, int from, int to, int spaces)
    {
        var modes = _model.Modes;
        var all = _season.InArea(area);
        var start = all.Length == 0 ? 0 : _random.Below(all.Length);
        for (var index = 0; index < all.Length && spaces > 0; index++)
        {
            var other = all[(start + index) % all.Length];
            var mode = _season.Places[other].Mode;
            var its = area < _model.Zones
                ? (From: modes.Sow[mode], To: modes.Emerge[mode])
                : (From: modes.Emerge[mode], To: (short)(modes.Ready[mode] - _model.HardeningDays));
            if (its.From < to && from < its.To)
            {
                Add(other);
                spaces -= _model.Before[other];
            }
        }
    }

    private void AddByDue(int batch, int count)
    {
        var reach = Math.Min(_byDue.Length, (count * 4) + 8);
        for (var tries = 0; Chosen.Count < count && tries < 4 * count; tries++)
        {
            var rank = _rank[batch] + _random.Below((2 * reach) + 1) - reach;
            if (rank >= 0 && rank < _byDue.Length)
            {
                Add(_byDue[rank]);
            }
        }
    }

    /// <summary>Empties a zone for some weeks and holds it to another level, or off, so that batches gather where they would not go
    /// one by one; with some from another zone of those weeks.</summary>
    private void ChooseZoneWeeks()
    {
        var zone = _random.Below(_model.Zones);
        var first = _random.Below(_model.Weeks);
        var last = Math.Min(_model.Weeks - 1, first + _random.Below(4));
        AddTouching(zone, first, last, one: 1);
        var level = _random.Below(_model.Levels);
        if (_random.Chance(0.3) && first > 0 && _season.Zones.LevelOf(zone, first - 1) is >= 0 and var before)
        {
            level = before;
        }

        Held = (zone, level, first, last);
        if (level != 0 && _model.Zones > 1)
        {
            var other = _random.Below(_model.Zones);
            if (other != zone)
            {
                AddTouching(other, first, last, one: _random.Chance(0.5) ? 1 : 0.4);
            }
        }
    }

    /// <summary>Turns a zone off for the first or last week of those it is on for, of some such weeks the one with fewest trays.</summary>
    private void ChooseEdge()
    {
        var (best, bestWeek, fewest) = (-1, -1, double.PositiveInfinity);
        for (var tries = 0; tries < EdgesLookedAt; tries++)
        {
            var (zone, week) = (_random.Below(_model.Zones), _random.Below(_model.Weeks));
            var step = _random.Chance(0.5) ? 1 : -1;
            if (!_season.Zones.IsLocked(zone, week))
            {
                continue;
            }

            var level = _season.Zones.LevelOf(zone, week);
            while (week + step >= 0 && week + step < _model.Weeks
                && _season.Zones.IsLocked(zone, week + step) && _season.Zones.LevelOf(zone, week + step) == level)
            {
                week += step;
            }

            var trays = 0.0;
            foreach (var batch in _season.InArea(zone))
            {
                trays += Touches(batch, week, week) ? _model.Before[batch] : 0;
            }

            if (trays / _model.Spaces[zone] < fewest)
            {
                (best, bestWeek, fewest) = (zone, week, trays / _model.Spaces[zone]);
            }
        }

        if (best >= 0)
        {
            AddTouching(best, bestWeek, bestWeek, one: 1);
            Held = (best, 0, bestWeek, bestWeek);
            if (Chosen.Count > 0)
            {
                AddByDue(Chosen[0], Chosen.Count + _random.Below(MostBesideEdge));
            }
        }
    }

    private bool Touches(int batch, int first, int last)
    {
        var mode = _season.Places[batch].Mode;
        return _model.Modes.Sow[mode] / 7 <= last && (_model.Modes.Emerge[mode] - 1) / 7 >= first;
    }

    private void AddTouching(int zone, int first, int last, double one)
    {
        foreach (var batch in _season.InArea(zone))
        {
            if (Touches(batch, first, last) && (one >= 1 || _random.Chance(one)))
            {
                Add(batch);
            }
        }
    }

    private void Add(int batch)
    {
        if (_marked[batch] != _mark)
        {
            _marked[batch] = _mark;
            Chosen.Add(batch);
        }
    }
}
