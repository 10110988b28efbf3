using System.Diagnostics;
using System.Runtime.InteropServices;

namespace Nursery.Planning.Search;

/// <summary>How far a search may go: to a number of steps (the same plan every time), to a time, or to the first of the two.</summary>
internal readonly record struct Budget(long? Steps, TimeSpan? Time)
{
    public double Done(long steps, TimeSpan time) =>
        Math.Min(1, Math.Max(Steps is { } most ? (double)steps / most : 0, Time is { } limit ? time / limit : 0));
}

/// <summary>Takes some batches out and places them anew, again and again; a worse plan is kept now and then, ever more seldom
/// (simulated annealing). Ruin and recreate: G. Schrimpf, J. Schneider, H. Stamm-Wilbrandt and G. Dueck, Record Breaking
/// Optimization Results Using the Ruin and Recreate Principle, Journal of Computational Physics 159, 2000.</summary>
internal sealed class RuinAndRecreate
{
    private readonly Season _season;
    private readonly SplitMix _random;
    private readonly Inserter _inserter;
    private readonly Ruin _ruin;
    private readonly Place[] _best;
    private readonly List<(int Batch, Place Place)> _taken = [];
    private readonly List<int> _order = [];
    private readonly List<int> _changed = [];
    private readonly bool[] _isChanged;
    private readonly long[] _trayDays;
    private long _cost;

    public RuinAndRecreate(Season season, SplitMix random)
    {
        (_season, _random) = (season, random);
        _inserter = new Inserter(season, random);
        _ruin = new Ruin(season, random);
        _best = [.. season.Places];
        Heat = SearchHeat.Of(season);
        _isChanged = new bool[_best.Length];
        _trayDays = TrayDays(season.Model);
        season.Zones.Settle();
        _cost = BestCost = season.Cost;
    }

    public long BestCost { get; private set; }

    public long Steps { get; private set; }

    public SearchHeat Heat { get; set; }

    /// <summary>Tray-days on benches: what makes a batch hard to place.</summary>
    public static long[] TrayDays(SeasonModel model) =>
    [
        .. Enumerable.Range(0, model.Batches.Count).Select(batch => model.Modes.Start[batch] == model.Modes.Start[batch + 1]
            ? 0
            : (long)model.After[batch] * (model.Modes.Ready[model.Modes.Start[batch]] - model.Modes.Sow[model.Modes.Start[batch]])),
    ];

    public void Run(Budget budget, Action<long, double>? progress, CancellationToken cancellation)
    {
        if (_best.Length == 0)
        {
            return;
        }

        var watch = Stopwatch.StartNew();
        var done = 0.0;
        var temperature = Heat.Start;
        var start = Steps;
        while (done < 1 && !cancellation.IsCancellationRequested)
        {
            if ((Steps & 63) == 0)
            {
                done = budget.Done(Steps - start, watch.Elapsed);
                temperature = Heat.At(done);
                progress?.Invoke(BestCost, done);
                if (done >= 1)
                {
                    break;
                }
            }

            Step(temperature);
            Steps++;
        }

        RestoreBest();
    }

    private void Step(double temperature)
    {
        _ruin.Choose(Heat);
        _taken.Clear();
        _order.Clear();
        foreach (var batch in _ruin.Chosen)
        {
            _order.Add(batch);
            if (_season.IsPlaced(batch))
            {
                _taken.Add((batch, _season.Take(batch)));
            }
        }

        var (zone, level, first, last) = _ruin.Held;
        var held = zone >= 0 && IsOpen(zone, level, first, last);
        _season.Zones.Settle();
        var before = _season.Zones.Total;
        if (held)
        {
            _season.Zones.Lock(zone, level, first, last);
            _season.Zones.Settle();
        }

        Sort();
        (_inserter.Blink, _inserter.Parts) = (Heat.Blink, Heat.Parts);
        var limit = _cost + (long)(temperature * -Math.Log(1 - _random.Unit()));
        var failed = !PlaceAnew(held ? limit + (_season.Zones.Total - before) + (2L * _season.Model.Prices.SetpointChange) : limit);
        if (held)
        {
            _season.Zones.Unlock(zone, first, last);
            _season.Zones.Settle();
        }

        if (failed || _season.Cost > limit)
        {
            Undo();
            return;
        }

        _cost = _season.Cost;
        foreach (var batch in _order)
        {
            if (!_isChanged[batch])
            {
                _isChanged[batch] = true;
                _changed.Add(batch);
            }
        }

        if (_cost < BestCost)
        {
            KeepBest();
        }
    }

    /// <summary>What is placed again only adds cost, at least that of its cheapest mode; so a batch may cost no more than what the
    /// others leave below the limit, and once there is no such place the rest needs no try.</summary>
    private bool PlaceAnew(long limit)
    {
        var model = _season.Model;
        var left = limit - _season.Cost;
        foreach (var batch in _order)
        {
            left += model.UnplacedCost(batch) - Least(batch);
        }

        foreach (var batch in _order)
        {
            var (least, unplaced) = (Least(batch), model.UnplacedCost(batch));
            var most = (int)Math.Min(left + least + 1, unplaced);
            var cost = _season.Cost;
            var placed = most > least && _inserter.Insert(batch, most);
            if (!placed && most < unplaced)
            {
                return false;
            }

            left -= placed ? _season.Cost - cost + unplaced - least : unplaced - least;
            if (left < 0)
            {
                return false;
            }
        }

        return true;

        int Least(int batch) =>
            model.Modes.Start[batch] == model.Modes.Start[batch + 1]
                ? model.UnplacedCost(batch) : Math.Min(model.UnplacedCost(batch), model.Modes.Cost[model.Modes.Start[batch]]);
    }

    private bool IsOpen(int zone, int level, int first, int last)
    {
        for (var week = first; week <= last; week++)
        {
            if (!_season.Zones.IsOpen(zone, week, level))
            {
                return false;
            }
        }

        return true;
    }

    private void Sort()
    {
        var order = CollectionsMarshal.AsSpan(_order)[(_ruin.FirstStays ? 1 : 0)..];
        _random.Shuffle(order);
        switch (_random.Below(6))
        {
            case 0:
                order.Sort((one, other) => _trayDays[other] != _trayDays[one]
                    ? _trayDays[other].CompareTo(_trayDays[one]) : one.CompareTo(other));
                break;
            case 1:
                order.Sort((one, other) => _season.Model.Due[one] != _season.Model.Due[other]
                    ? _season.Model.Due[one].CompareTo(_season.Model.Due[other]) : one.CompareTo(other));
                break;
            case 2:
                order.Sort((one, other) => _season.Model.Trays[other] != _season.Model.Trays[one]
                    ? _season.Model.Trays[other].CompareTo(_season.Model.Trays[one]) : one.CompareTo(other));
                break;
        }
    }

    private void Undo()
    {
        foreach (var batch in _order)
        {
            if (_season.IsPlaced(batch))
            {
                _season.Take(batch);
            }
        }

        foreach (var (batch, place) in _taken)
        {
            _season.Put(batch, place);
        }

        _season.Zones.Settle();
    }

    private void KeepBest()
    {
        BestCost = _cost;
        foreach (var batch in _changed)
        {
            _best[batch] = _season.Places[batch];
            _isChanged[batch] = false;
        }

        _changed.Clear();
    }

    /// <summary>Puts the season back to the best plan found.</summary>
    private void RestoreBest()
    {
        foreach (var batch in _changed)
        {
            if (_season.IsPlaced(batch))
            {
                _season.Take(batch);
            }
        }

        foreach (var batch in _changed)
        {
            _isChanged[batch] = false;
            if (_best[batch].Mode >= 0)
            {
                _season.Put(batch, _best[batch]);
            }
        }

        _changed.Clear();
        _season.Zones.Settle();
        _cost = _season.Cost;
    }
}
