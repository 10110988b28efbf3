using Nursery.Planning.Plans;
using Nursery.Planning.Problems;

namespace Nursery.Planning.Scoring;

/// <summary>What a plan costs, read off the plan itself: a method a cost, in cents.</summary>
public sealed class Scorer
{
    private readonly Problem _problem;
    private readonly Prices _prices;
    private readonly Dictionary<string, Batch> _batches;
    private readonly Dictionary<string, Crop> _crops;
    private readonly Dictionary<string, HeatZone> _zones;
    private readonly Dictionary<string, string> _houses;

    public Scorer(Problem problem)
    {
        (_problem, _prices) = (problem, problem.Prices ?? Prices.Usual);
        _batches = problem.Batches.DistinctBy(batch => batch.Id).ToDictionary(batch => batch.Id);
        _crops = problem.Crops.DistinctBy(crop => crop.Id).ToDictionary(crop => crop.Id);
        _zones = problem.Zones.DistinctBy(zone => zone.Id).ToDictionary(zone => zone.Id);
        _houses = problem.Benches.DistinctBy(bench => bench.Id).ToDictionary(bench => bench.Id, bench => bench.House);
    }

    /// <param name="plan">Its batches and zones must be the problem's.</param>
    public Score Of(Plan plan)
    {
        var costs = new SortedDictionary<Constraint, long>
        {
            [Constraint.EarlyReady] = plan.Batches.Sum(EarlyReady),
            [Constraint.LateReady] = plan.Batches.Sum(LateReady),
            [Constraint.DegreeOff] = plan.Batches.Sum(DegreeOff),
            [Constraint.HeatedBenchDay] = plan.Zones.Sum(HeatedBenchDay),
            [Constraint.SetpointChange] = plan.Zones.Sum(SetpointChange),
            [Constraint.SplitBatch] = plan.Batches.Sum(SplitBatch),
            [Constraint.Unplaced] = plan.Unplaced.Sum(Unplaced),
        };
        var cost = costs.Values.Sum();
        costs[Constraint.SplitRun] = plan.Batches.Sum(SplitRun);
        costs[Constraint.ChangedSowDay] = plan.Batches.Sum(ChangedSowDay);
        costs[Constraint.ExtraMove] = plan.Batches.Sum(ExtraMove);
        costs[Constraint.OtherHouse] = plan.Batches.Sum(OtherHouse);
        return new Score(cost, cost + costs[Constraint.SplitRun], costs.ToDictionary(pair => pair.Key.ToString(), pair => pair.Value));
    }

    public long EarlyReady(PlannedBatch placed) =>
        (long)_prices.DayOffDue * Math.Max(0, _batches[placed.Id].Due.DayNumber - placed.ReadyOn.DayNumber) * _batches[placed.Id].Trays;

    public long LateReady(PlannedBatch placed)
    {
        var batch = _batches[placed.Id];
        return batch.Trays
            * (((long)_prices.DayOffDue * Math.Max(0, placed.ReadyOn.DayNumber - batch.Due.DayNumber))
                + ((long)_prices.DayLate * Math.Max(0, placed.ReadyOn.DayNumber - batch.LastOnTime.DayNumber)));
    }

    public long DegreeOff(PlannedBatch placed)
    {
        var days = placed.MoveOffOn.DayNumber - placed.SowOn.DayNumber;
        var off = Math.Abs(placed.SetpointF - _crops[_batches[placed.Id].Crop].BestF);
        return (long)Math.Round(_prices.DegreeOff * off * days * _batches[placed.Id].Trays);
    }

    /// <summary>A week's heat is rounded down to whole cents.</summary>
    public long HeatedBenchDay(ZonePath path) => Weeks(path).Sum(setpoint => setpoint is { } on
        ? (long)Math.Max(0, Math.Floor((_prices.HeatTenDegrees * _zones[path.Zone].Spaces * 7 * (on - _prices.HeatFreeF) / 10) + 1e-9))
        : 0);

    public long SetpointChange(ZonePath path)
    {
        var weeks = Weeks(path);
        var changes = _zones[path.Zone].BeforeF is { } before && weeks[0] != before ? 1 : 0;
        for (var week = 1; week < weeks.Length; week++)
        {
            changes += Nullable.Equals(weeks[week], weeks[week - 1]) ? 0 : 1;
        }

        return (long)changes * _prices.SetpointChange;
    }

    public long SplitBatch(PlannedBatch placed) => (long)_prices.Split * (Zones(placed) + Benches(placed) - 2);

    public long SplitRun(PlannedBatch placed) =>
        (long)_prices.Split * (placed.Heat.Count + placed.Benches.Count - Zones(placed) - Benches(placed));

    public long Unplaced(Unplaced unplaced) => (long)_prices.UnplacedTray * unplaced.Trays;

    public long ChangedSowDay(PlannedBatch placed) =>
        _batches[placed.Id].Now is { } now && now.SowOn != placed.SowOn ? _prices.MovedSowDay : 0;

    public long ExtraMove(PlannedBatch placed)
    {
        var now = _batches[placed.Id].Now;
        return (now?.Zone is { } zone && placed.Heat[0].Zone != zone ? _prices.MovedPlace : 0)
            + (now?.Bench is { } bench && placed.Benches[0].Bench != bench ? _prices.MovedPlace : 0);
    }

    /// <summary>By the spaces of each run on a bench, as many as there are trays.</summary>
    public long OtherHouse(PlannedBatch placed)
    {
        var houses = placed.Heat.Select(stay => _houses[_zones[stay.Zone].Bench]).ToHashSet();
        var there = placed.Benches.Where(stay => !houses.Contains(_houses[stay.Bench])).Sum(stay => stay.Spaces);
        return (long)_prices.OtherHouse * _batches[placed.Id].Trays * there / Math.Max(1, placed.Benches.Sum(stay => stay.Spaces));
    }

    private static int Zones(PlannedBatch placed) => placed.Heat.Select(stay => stay.Zone).Distinct().Count();

    private static int Benches(PlannedBatch placed) => placed.Benches.Select(stay => stay.Bench).Distinct().Count();

    /// <summary>Setpoint on the first day of every week.</summary>
    private double?[] Weeks(ZonePath path)
    {
        var weeks = new double?[(_problem.Days + 6) / 7];
        for (var week = 0; week < weeks.Length; week++)
        {
            var day = _problem.DateOf(7 * week);
            weeks[week] = path.Setpoints.FirstOrDefault(span => span.From <= day && day < span.To)?.SetpointF;
        }

        return weeks;
    }
}
