using Nursery.Planning.Plans;
using Nursery.Planning.Problems;
using Nursery.Planning.Search;

namespace Nursery.Planning.Changes;

/// <summary>Carries trays that are sown over a change: where they stand they stay, and what lost its place, or stays longer than its place
/// is free, is given another one, in parts if it must.</summary>
internal sealed class RunningTrays
{
    private readonly Problem _problem;
    private readonly DateOnly _day;
    private readonly Season _season;
    private readonly Dictionary<string, Crop> _crops;
    private readonly List<FrozenStay> _stays = [];
    private readonly List<HomelessTrays> _homeless = [];

    /// <param name="problem">With the change, without batches.</param>
    public RunningTrays(Problem problem, DateOnly day)
    {
        (_problem, _day) = (problem, day);
        _season = new Season(new SeasonModel(problem, []));
        _crops = problem.Crops.ToDictionary(crop => crop.Id);
    }

    public sealed record Result(IReadOnlyList<RunningBatch> Batches, IReadOnlyList<FrozenStay> Stays, IReadOnlyList<HomelessTrays> Homeless);

    public Result GoOn(
        IReadOnlyList<PlannedBatch> sown, IReadOnlyDictionary<string, int> slips, IReadOnlyDictionary<string, Batch> batches)
    {
        // Those that can stay come first, so that nobody who need not move has to.
        var all = sown.Select(placed => (Placed: Slipped(placed, slips.GetValueOrDefault(placed.Id)), Slip: slips.GetValueOrDefault(placed.Id)))
            .Where(pair => pair.Placed.ReadyOn > _day).ToList();
        var go = new RunningBatch[all.Count];
        foreach (var index in Enumerable.Range(0, all.Count).OrderBy(index => all[index].Slip != 0).ThenBy(index => index))
        {
            var (placed, slip) = all[index];
            var fits = Fits(placed);
            var longer = slip == 0 ? null : FormattableString.Invariant($"{slip} days later than planned");
            go[index] = fits
                ? new RunningBatch(placed, longer)
                : new RunningBatch(Rehomed(placed, _crops[batches[placed.Id].Crop]), longer ?? "its place cannot be used");
            if (fits)
            {
                Hold(placed);
            }
        }

        return new Result(go, _stays, _homeless);
    }

    private PlannedBatch Slipped(PlannedBatch placed, int days)
    {
        return placed with
        {
            MoveOffOn = Later(placed.MoveOffOn),
            SpaceOn = Later(placed.SpaceOn),
            HardenOn = Later(placed.HardenOn),
            ReadyOn = Later(placed.ReadyOn),
        };

        DateOnly Later(DateOnly date) => date <= _day && days > 0 ? date : date.AddDays(days) < _day && date > _day ? _day : date.AddDays(days);
    }

    private bool Fits(PlannedBatch placed) =>
        placed.Heat.All(stay => Free(stay.Zone, _day, placed.MoveOffOn, stay.FirstSpace, stay.Spaces))
        && placed.Benches.All(stay => Free(stay.Bench, placed.MoveOffOn, placed.SpaceOn, stay.FirstSpace, stay.Spaces)
            && Free(stay.Bench, placed.SpaceOn, placed.HardenOn, stay.FirstSpaceAfter, stay.SpacesAfter));

    private bool Free(string where, DateOnly from, DateOnly to, int first, int count)
    {
        var (firstDay, end) = Days(from, to);
        return end <= firstDay || _season.Bits.IsFree(Area(where), firstDay, end, first - 1, count);
    }

    private (int First, int End) Days(DateOnly from, DateOnly to) =>
        (Math.Max(_problem.DayOf(_day), _problem.DayOf(from)), Math.Min(_problem.Days, _problem.DayOf(to)));

    private int Area(string id) => Array.IndexOf(_season.Model.AreaId, id);

    private void Hold(PlannedBatch placed)
    {
        foreach (var stay in placed.Heat)
        {
            Take(placed, stay.Zone, placed.SowOn, placed.MoveOffOn, stay.FirstSpace, stay.Spaces);
        }

        foreach (var stay in placed.Benches)
        {
            Take(placed, stay.Bench, placed.MoveOffOn, placed.SpaceOn, stay.FirstSpace, stay.Spaces);
            Take(placed, stay.Bench, placed.SpaceOn, placed.HardenOn, stay.FirstSpaceAfter, stay.SpacesAfter);
        }

        Harden(placed);
    }

    private void Harden(PlannedBatch placed)
    {
        var spaces = placed.Benches.Sum(stay => stay.SpacesAfter);
        if (placed.ReadyOn > placed.HardenOn && spaces > 0)
        {
            _stays.Add(new FrozenStay(FrozenWhere.Hardening, Later(placed.HardenOn), placed.ReadyOn, 1, spaces, Batch: placed.Id));
        }
    }

    private DateOnly Later(DateOnly date) => date < _day ? _day : date;

    private void Take(PlannedBatch placed, string where, DateOnly from, DateOnly to, int first, int count)
    {
        var (firstDay, end) = Days(from, to);
        if (end > firstDay && count > 0)
        {
            var heat = Area(where) < _season.Model.Zones;
            _season.Bits.Set(Area(where), firstDay, end, first - 1, count, taken: true);
            _stays.Add(new FrozenStay(
                where, _problem.DateOf(firstDay), _problem.DateOf(end), first, count, heat ? placed.SetpointF : null, heat ? placed.SetpointF : null, placed.Id));
        }
    }

    /// <summary>Keeps each part that can stay and finds room for the rest: on heat in any zone that may have its setpoint, then on the
    /// benches of its band, with the spaces it needs after spacing from the first day on.</summary>
    private PlannedBatch Rehomed(PlannedBatch placed, Crop crop)
    {
        var heat = new List<HeatStay>();
        foreach (var stay in placed.Heat)
        {
            var (first, end) = Days(placed.SowOn, placed.MoveOffOn);
            foreach (var run in Runs(stay.Zone, first, end, stay.FirstSpace, stay.Spaces, Enumerable.Range(0, _season.Model.Zones).Where(zone => Suits(zone, placed.SetpointF)), placed, "heat"))
            {
                heat.Add(new HeatStay(_season.Model.AreaId[run.Area], run.First + 1, run.Count));
                Take(placed, _season.Model.AreaId[run.Area], placed.SowOn, placed.MoveOffOn, run.First + 1, run.Count);
            }
        }

        var benches = new List<BenchStay>();
        foreach (var stay in placed.Benches)
        {
            var (first, end) = Days(placed.MoveOffOn, placed.HardenOn);
            var same = Free(stay.Bench, placed.MoveOffOn, placed.SpaceOn, stay.FirstSpace, stay.Spaces)
                && Free(stay.Bench, placed.SpaceOn, placed.HardenOn, stay.FirstSpaceAfter, stay.SpacesAfter);
            if (same)
            {
                benches.Add(stay);
                Take(placed, stay.Bench, placed.MoveOffOn, placed.SpaceOn, stay.FirstSpace, stay.Spaces);
                Take(placed, stay.Bench, placed.SpaceOn, placed.HardenOn, stay.FirstSpaceAfter, stay.SpacesAfter);
                continue;
            }

            var band = placed.Band == BenchUse.Warm ? _season.Model.WarmBenches : _season.Model.CoolBenches;
            var left = stay.Spaces;
            foreach (var run in Runs(stay.Bench, first, end, stay.FirstSpaceAfter, stay.SpacesAfter, band, placed, "bench"))
            {
                var before = Math.Min(left, Math.Max(1, (int)Math.Ceiling(run.Count / crop.FootprintFactor)));
                left -= before;
                benches.Add(new BenchStay(_season.Model.AreaId[run.Area], run.First + 1, Math.Max(1, before), run.First + 1, run.Count));
                Take(placed, _season.Model.AreaId[run.Area], placed.MoveOffOn, placed.HardenOn, run.First + 1, run.Count);
            }
        }

        var moved = placed with { Heat = heat, Benches = benches };
        Harden(moved);
        return moved;
    }

    private bool Suits(int zone, double setpointF) => _problem.Zones[zone].SetpointsF.Contains(setpointF);

    /// <summary>The run itself if it is free, else a whole one elsewhere, else the longest ones.</summary>
    private List<Run> Runs(
        string where, int from, int to, int first, int count, IEnumerable<int> areas, PlannedBatch placed, string what)
    {
        var area = Area(where);
        if (to <= from || _season.Bits.IsFree(area, from, to, first - 1, count))
        {
            return [new Run((short)area, (short)(first - 1), (short)count, 0, 0)];
        }

        var free = new List<Run>();
        foreach (var other in areas)
        {
            _season.Bits.AddFreeRuns(other, from, to, free);
        }

        // The shortest run that holds all of it; else the longest ones together.
        var whole = free.Where(run => run.Count >= count).OrderBy(run => run.Area != area).ThenBy(run => run.Count).Take(1).ToList();
        var runs = new List<Run>();
        var left = count;
        foreach (var run in whole.Count > 0 ? whole : [.. free.OrderByDescending(run => run.Count)])
        {
            if (left > 0)
            {
                runs.Add(run with { Count = (short)Math.Min(left, run.Count) });
                left -= runs[^1].Count;
            }
        }

        if (left > 0)
        {
            _homeless.Add(new HomelessTrays(placed.Id, what, _problem.DateOf(from), _problem.DateOf(to), left));
        }

        return runs;
    }
}
