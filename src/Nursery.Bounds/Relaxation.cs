using Google.OrTools.LinearSolver;
using Nursery.Planning;
using Nursery.Planning.Search;

namespace Nursery.Bounds;

/// <summary>A linear program no plan can be cheaper than: trays instead of batches, counts of zones on a level instead of zones,
/// benches of a band as one, no positions, splits free. Loads are kept as day-to-day balances (7 entries a mode instead of 50), and
/// trays of a group on a level need that part of a zone on it (the coupling cuts), which is what makes the bound good.</summary>
internal sealed class Relaxation
{
    private readonly SeasonModel _model;
    private readonly Solver _solver;
    private readonly List<ZoneClass> _classes;
    private readonly Variable[,,] _on;
    private readonly Dictionary<(int Row, int Day), Constraint> _balance = [];
    private readonly bool _whole;

    /// <param name="whole">Counts of zones are whole numbers: dearer to solve, a better bound for small nurseries.</param>
    /// <param name="cuts">With the coupling cuts.</param>
    public Relaxation(SeasonModel model, Solver solver, bool whole, bool cuts)
    {
        (_model, _solver, _whole) = (model, solver, whole);
        _classes = ZoneClass.Of(model);
        _on = new Variable[_classes.Count, model.Weeks, model.Levels];
        solver.Objective().SetMinimization();
        AddZones();
        AddBalances();
        foreach (var group in BatchGroup.Of(model))
        {
            AddGroup(group, cuts);
        }
    }

    private static int HeatRow(int level) => level - 1;

    private int BandRow(BenchUse band) => _model.Levels - 1 + (band == BenchUse.Warm ? 0 : 1);

    private int HardeningRow => _model.Levels + 1;

    private void AddZones()
    {
        for (var zoneClass = 0; zoneClass < _classes.Count; zoneClass++)
        {
            var some = _classes[zoneClass];
            for (var week = 0; week < _model.Weeks; week++)
            {
                var all = _solver.MakeConstraint(some.Zones.Count, some.Zones.Count, "");
                for (var level = 0; level < _model.Levels; level++)
                {
                    var (must, may) = (some.Must(_model, week, level), some.May(_model, week, level));
                    var on = _whole ? _solver.MakeIntVar(must, may, "") : _solver.MakeNumVar(must, may, "");
                    _on[zoneClass, week, level] = on;
                    all.SetCoefficient(on, 1);
                    if (level > 0)
                    {
                        _solver.Objective().SetCoefficient(on, _model.Heat[(some.Zones[0] * _model.Levels) + level]);
                    }

                    // More zones on a level than the week before: each of them was changed to it.
                    var more = _solver.MakeNumVar(0, some.Zones.Count, "");
                    _solver.Objective().SetCoefficient(more, _model.Prices.SetpointChange);
                    var row = _solver.MakeConstraint(week == 0 ? -some.Before(_model, level) : 0, double.PositiveInfinity, "");
                    row.SetCoefficient(more, 1);
                    row.SetCoefficient(on, -1);
                    if (week > 0)
                    {
                        row.SetCoefficient(_on[zoneClass, week - 1, level], 1);
                    }
                }
            }
        }
    }

    private void AddBalances()
    {
        var free = FreeSpaces.Of(_model);
        for (var row = 0; row <= HardeningRow; row++)
        {
            Variable? before = null;
            for (var day = 0; day < _model.Days; day++)
            {
                var most = row < _model.Levels - 1 ? double.PositiveInfinity : free[row - _model.Levels + 1][day];
                var load = _solver.MakeNumVar(0, most, "");
                var balance = _solver.MakeConstraint(0, 0, "");
                balance.SetCoefficient(load, 1);
                if (before is not null)
                {
                    balance.SetCoefficient(before, -1);
                }

                _balance[(row, day)] = balance;
                before = load;
                if (row < _model.Levels - 1)
                {
                    var room = _solver.MakeConstraint(double.NegativeInfinity, 0, "");
                    room.SetCoefficient(load, 1);
                    for (var zoneClass = 0; zoneClass < _classes.Count; zoneClass++)
                    {
                        room.SetCoefficient(_on[zoneClass, day / 7, row + 1], -_classes[zoneClass].Spaces);
                    }
                }
            }
        }
    }

    private void AddGroup(BatchGroup group, bool cuts)
    {
        var modes = _model.Modes;
        var all = _solver.MakeConstraint(group.Trays, group.Trays, "");
        var left = _solver.MakeNumVar(0, group.Trays, "");
        all.SetCoefficient(left, 1);
        _solver.Objective().SetCoefficient(left, _model.Prices.UnplacedTray);
        var needs = new Dictionary<(int Level, int Week), Constraint>();
        for (var mode = modes.Start[group.Like]; mode < modes.Start[group.Like + 1]; mode++)
        {
            var trays = _solver.MakeNumVar(0, group.Trays, "");
            all.SetCoefficient(trays, 1);
            _solver.Objective().SetCoefficient(trays, (double)modes.Cost[mode] / _model.Trays[group.Like]);
            int sow = modes.Sow[mode], emerge = modes.Emerge[mode], ready = modes.Ready[mode], level = modes.Level[mode];
            var harden = ready - _model.HardeningDays;
            var spacing = emerge + ((harden - emerge) / 2);
            Flow(trays, HeatRow(level), sow, emerge, group.Before);
            Flow(trays, BandRow(modes.Band[mode]), emerge, spacing, group.Before);
            Flow(trays, BandRow(modes.Band[mode]), spacing, harden, group.After);
            Flow(trays, HardeningRow, harden, ready, group.After);
            for (var week = sow / 7; cuts && week <= (emerge - 1) / 7; week++)
            {
                if (!needs.TryGetValue((level, week), out var need))
                {
                    need = needs[(level, week)] = _solver.MakeConstraint(double.NegativeInfinity, 0, "");
                    for (var zoneClass = 0; zoneClass < _classes.Count; zoneClass++)
                    {
                        need.SetCoefficient(_on[zoneClass, week, level], -group.Trays);
                    }
                }

                need.SetCoefficient(trays, 1);
            }
        }
    }

    private void Flow(Variable trays, int row, int from, int to, double spaces)
    {
        if (from < to)
        {
            var into = _balance[(row, from)];
            into.SetCoefficient(trays, into.GetCoefficient(trays) - spaces);
            if (to < _model.Days)
            {
                var outOf = _balance[(row, to)];
                outOf.SetCoefficient(trays, outOf.GetCoefficient(trays) + spaces);
            }
        }
    }
}
