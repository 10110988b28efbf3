using System.Globalization;
using Nursery.Planning.Changes;
using Nursery.Planning.Plans;
using Nursery.Planning.Problems;

namespace Nursery.Planning.Repairs;

/// <summary>Heat zones set higher or lower in the weeks in question: to setpoints they may not have so far, or other than promised.</summary>
internal static class ZoneWays
{
    private const int MostZones = 4;

    public static IEnumerable<Repair> Of(Trials trials)
    {
        var wanted = trials.Left.Select(batch => trials.Crops[batch.Crop]).Distinct()
            .SelectMany(crop => crop.Table.Where(row => row.SetpointF >= crop.MinF && row.SetpointF <= crop.MaxF).Select(row => row.SetpointF)).ToHashSet();
        var promised = (trials.Problem.Setpoints ?? []).Select(span => span.Zone).ToHashSet();
        foreach (var zone in trials.Problem.Zones.OrderByDescending(zone => zone.Spaces).ThenBy(zone => zone.Id, StringComparer.Ordinal)
            .Where(zone => !wanted.IsSubsetOf(zone.SetpointsF)).Take(MostZones))
        {
            if (NewSetpoint(trials, zone, wanted) is { } repair)
            {
                yield return repair;
            }
        }

        foreach (var zone in trials.Problem.Zones.Where(zone => promised.Contains(zone.Id)).Take(MostZones))
        {
            if (OtherThanPromised(trials, zone) is { } repair)
            {
                yield return repair;
            }
        }
    }

    private static Repair? NewSetpoint(Trials trials, HeatZone zone, HashSet<double> wanted)
    {
        if (trials.Run([new ZoneSetpoints(zone.Id, [.. zone.SetpointsF.Union(wanted).Order()])]) is not { } wide)
        {
            return null;
        }

        var used = Path(wide.Plan, zone).Where(span => span.SetpointF is { } setpoint && !zone.SetpointsF.Contains(setpoint)).ToList();
        SeasonChange[] changes = [new ZoneSetpoints(zone.Id, [.. zone.SetpointsF.Union(used.Select(span => span.SetpointF!.Value)).Order()])];
        return used.Count > 0 && trials.Least(changes, wide.Plan) is { } planned
            ? trials.Repair(changes, $"Set zone {zone.Id} to {string.Join(" and ", used.Select(Words))}, which it may not have so far", planned)
            : null;
    }

    private static Repair? OtherThanPromised(Trials trials, HeatZone zone)
    {
        var whole = new OutOfUse(trials.Problem.Start, trials.Problem.End);
        if (trials.Run([new SetpointFreed(zone.Id, whole)]) is not { } wide)
        {
            return null;
        }

        // Only the weeks in which batches that had no place are in it: the rest of the promise is kept.
        var left = trials.Left.Select(batch => batch.Id).ToHashSet();
        var here = wide.Plan.Batches.Where(placed => left.Contains(placed.Id) && placed.Heat.Any(stay => stay.Zone == zone.Id)).ToList();
        if (here.Count == 0)
        {
            return null;
        }

        var days = Weeks(trials.Problem, here.Min(placed => placed.SowOn), here.Max(placed => placed.MoveOffOn));
        SeasonChange[] changes = [new SetpointFreed(zone.Id, days)];
        if (trials.Least(changes, wide.Plan) is not { } planned)
        {
            return null;
        }

        var spans = Path(planned.Plan, zone).Where(span => span.SetpointF != null && span.From < days.To && days.From < span.To)
            .Select(span => span with { From = span.From > days.From ? span.From : days.From, To = span.To < days.To ? span.To : days.To });
        return trials.Repair(changes, $"Set zone {zone.Id} to {string.Join(" and ", spans.Select(Words))} instead of what was promised", planned);
    }

    /// <summary>Whole weeks of the season around days.</summary>
    private static OutOfUse Weeks(Problem problem, DateOnly from, DateOnly to) => new(
        problem.DateOf(problem.DayOf(from) / 7 * 7), problem.DateOf(Math.Min(problem.Days, (problem.DayOf(to) + 6) / 7 * 7)));

    private static IEnumerable<SetpointSpan> Path(Plan plan, HeatZone zone) =>
        plan.Zones.Where(path => path.Zone == zone.Id).SelectMany(path => path.Setpoints);

    private static string Words(SetpointSpan span) => string.Create(
        CultureInfo.InvariantCulture, $"{span.SetpointF:0.#} °F from {Trials.Day(span.From)} to {Trials.Day(span.To.AddDays(-1))}");
}
