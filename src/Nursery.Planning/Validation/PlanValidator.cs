using System.Globalization;
using Nursery.Planning.Plans;
using Nursery.Planning.Problems;
using Nursery.Planning.Scoring;

namespace Nursery.Planning.Validation;

/// <summary>Checks a finished plan against its problem, day by day, with nothing of the search: the temperatures of every day on heat
/// are summed up from the zones' paths, and every space is marked on every day.</summary>
public sealed class PlanValidator
{
    private readonly Problem _problem;
    private readonly Dictionary<string, Batch> _batches;
    private readonly Dictionary<string, Crop> _crops;
    private readonly Dictionary<string, HeatZone> _zones;
    private readonly Dictionary<string, Bench> _benches;
    private readonly List<Violation> _violations = [];
    private Dictionary<string, double?[]> _paths = [];

    private PlanValidator(Problem problem)
    {
        _problem = problem;
        _batches = problem.Batches.ToDictionary(batch => batch.Id);
        _crops = problem.Crops.ToDictionary(crop => crop.Id);
        _zones = problem.Zones.ToDictionary(zone => zone.Id);
        _benches = problem.Benches.ToDictionary(bench => bench.Id);
    }

    /// <param name="problem">As <see cref="Checks.ProblemCheck"/> leaves it: ids are there once, and known.</param>
    /// <returns>Empty for a plan that can be carried out.</returns>
    public static IReadOnlyList<Violation> Check(Problem problem, Plan plan) => new PlanValidator(problem).Check(plan);

    private List<Violation> Check(Plan plan)
    {
        _paths = _problem.Zones.ToDictionary(zone => zone.Id, zone => new double?[_problem.Days]);
        Whole(plan);
        foreach (var path in plan.Zones.Where(path => _zones.ContainsKey(path.Zone)))
        {
            Read(path);
            Setpoints(_zones[path.Zone]);
        }

        var known = plan.Batches.Where(placed => _batches.ContainsKey(placed.Id)).ToList();
        foreach (var placed in known)
        {
            Stays(placed, _batches[placed.Id], _crops[_batches[placed.Id].Crop]);
            Heat(placed, _crops[_batches[placed.Id].Crop]);
        }

        _violations.AddRange(new SpaceCheck(_problem).Check(known));
        return _violations;
    }

    private void Whole(Plan plan)
    {
        var times = plan.Batches.Select(placed => placed.Id).Concat(plan.Unplaced.Select(unplaced => unplaced.Id))
            .GroupBy(id => id).ToDictionary(group => group.Key, group => group.Count());
        foreach (var batch in _problem.Batches.Where(batch => times.GetValueOrDefault(batch.Id) != 1))
        {
            Say(Constraint.NotWhole, batch.Id, $"It is in the plan {times.GetValueOrDefault(batch.Id)} times.");
        }

        foreach (var stranger in plan.Batches.Where(placed => !_batches.ContainsKey(placed.Id)))
        {
            Say(Constraint.NotWhole, stranger.Id, "The problem has no such batch.");
        }
    }

    private void Read(ZonePath path)
    {
        var days = _paths[path.Zone];
        foreach (var span in path.Setpoints)
        {
            for (var day = Math.Max(0, _problem.DayOf(span.From)); day < Math.Min(_problem.Days, _problem.DayOf(span.To)); day++)
            {
                days[day] = span.SetpointF;
            }
        }
    }

    private void Setpoints(HeatZone zone)
    {
        var days = _paths[zone.Id];
        for (var day = 0; day < days.Length; day++)
        {
            if (days[day] is { } setpoint && !zone.SetpointsF.Contains(setpoint))
            {
                Say(Constraint.WrongSetpoint, zone.Id, $"{Text(setpoint)} °F on {Date(day)} is none of its setpoints.");
                return;
            }

            if (day % 7 != 0 && !Nullable.Equals(days[day], days[day - 1]))
            {
                Say(Constraint.MixedSetpoints, zone.Id, $"It changes within a week, on {Date(day)}.");
                return;
            }
        }

        foreach (var span in (_problem.Setpoints ?? []).Where(span => span.Zone == zone.Id))
        {
            for (var day = Math.Max(0, _problem.DayOf(span.From)); day < Math.Min(_problem.Days, _problem.DayOf(span.To)); day++)
            {
                if (!Nullable.Equals(days[day], span.SetpointF))
                {
                    Say(Constraint.WrongSetpoint, zone.Id, $"{Text(days[day])} on {Date(day)}; promised is {Text(span.SetpointF)}.");
                    return;
                }
            }
        }
    }

    private void Stays(PlannedBatch placed, Batch batch, Crop crop)
    {
        var growOn = placed.Band == BenchUse.Warm ? crop.WarmDays : placed.Band == BenchUse.Cool ? crop.CoolDays : null;
        if (growOn is not { } days || placed.Benches.Any(stay => _benches.GetValueOrDefault(stay.Bench)?.Use != placed.Band))
        {
            Say(Constraint.WrongBand, placed.Id, $"{crop.Id} stands on {placed.Band} benches {string.Join(", ", placed.Benches.Select(stay => stay.Bench))}.");
            return;
        }

        if (placed.HardenOn.DayNumber - placed.MoveOffOn.DayNumber != days
            || placed.SpaceOn.DayNumber - placed.MoveOffOn.DayNumber != days / 2
            || placed.ReadyOn.DayNumber - placed.HardenOn.DayNumber != _problem.HardeningDays)
        {
            Say(Constraint.WrongStay, placed.Id, $"{Text(placed.MoveOffOn)}, {Text(placed.SpaceOn)}, {Text(placed.HardenOn)}, {Text(placed.ReadyOn)} are not {days} days on the bench, spaced after half, and {_problem.HardeningDays} of hardening.");
        }

        if (placed.ReadyOn < batch.FirstReady || placed.ReadyOn > batch.LastReady || placed.ReadyOn > _problem.End
            || placed.SowOn < _problem.Start || placed.SowOn < (batch.SowFrom ?? _problem.Start))
        {
            Say(Constraint.OutOfWindow, placed.Id, $"Sown {Text(placed.SowOn)}, ready {Text(placed.ReadyOn)}; allowed is {Text(batch.FirstReady)} to {Text(batch.LastReady)}.");
        }

        if (placed.Heat.Sum(stay => stay.Spaces) != batch.SpacesBefore
            || placed.Benches.Sum(stay => stay.Spaces) != batch.SpacesBefore
            || placed.Benches.Sum(stay => stay.SpacesAfter) != batch.SpacesSpaced(crop)
            || placed.Heat.Any(stay => stay.Spaces < 1) || placed.Benches.Any(stay => stay.Spaces < 1)
            || placed.Benches.Any(stay => stay.FirstSpace < stay.FirstSpaceAfter || stay.FirstSpace + stay.Spaces > stay.FirstSpaceAfter + stay.SpacesAfter))
        {
            Say(Constraint.NotWhole, placed.Id, $"Its runs do not make {batch.SpacesBefore} spaces, {batch.SpacesSpaced(crop)} after spacing, each around the one before.");
        }
    }

    /// <summary>Sums the progress of every day on heat, in every zone it stands in.</summary>
    private void Heat(PlannedBatch placed, Crop crop)
    {
        foreach (var zone in placed.Heat.Select(stay => stay.Zone).Distinct())
        {
            if (!_paths.TryGetValue(zone, out var path))
            {
                Say(Constraint.TooCold, placed.Id, $"There is no zone {zone}.");
                continue;
            }

            var progress = 0.0;
            for (var date = placed.SowOn; date < placed.MoveOffOn; date = date.AddDays(1))
            {
                if (progress >= 1 - 1e-9)
                {
                    Say(Constraint.WrongHeatDays, placed.Id, $"It is up on {Text(date)} and stays on heat to {Text(placed.MoveOffOn)}.");
                    break;
                }

                var setpoint = _problem.DayOf(date) is var day and >= 0 && day < path.Length ? path[day] : null;
                var row = setpoint is { } on ? crop.Table.FirstOrDefault(row => row.SetpointF.Equals(on)) : null;
                if (row is null || setpoint < crop.MinF || setpoint > crop.MaxF)
                {
                    Say(setpoint > crop.MaxF ? Constraint.TooHot : Constraint.TooCold, placed.Id, $"{zone} has {Text(setpoint)} on {Text(date)}; {crop.Id} needs {Text(crop.MinF)} to {Text(crop.MaxF)} °F.");
                    progress = 1;
                    break;
                }

                if (!row.SetpointF.Equals(placed.SetpointF))
                {
                    Say(Constraint.MixedSetpoints, placed.Id, $"{zone} has {Text(setpoint)} on {Text(date)}; it is planned for {Text(placed.SetpointF)} °F.");
                }

                progress += row.ProgressPerDay;
            }

            if (progress < 1 - 1e-9)
            {
                Say(Constraint.WrongHeatDays, placed.Id, string.Create(CultureInfo.InvariantCulture, $"Off heat on {Text(placed.MoveOffOn)} it is only {progress:0.00} of the way."));
            }
        }
    }

    private void Say(Constraint constraint, string what, string sentence) => _violations.Add(new Violation(constraint, what, sentence));

    private string Date(int day) => Text(_problem.DateOf(day));

    private static string Text(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    private static string Text(double? setpoint) => setpoint is { } on ? on.ToString(CultureInfo.InvariantCulture) : "off";
}
