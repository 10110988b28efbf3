using Nursery.Planning.Problems;

namespace Nursery.Planning.Tests.Instances;

/// <summary>The cheapest plan without splits, found by trying every timing, zone, bench and space of every batch. It counts costs and spaces
/// by itself.</summary>
internal sealed class Exhaustive
{
    private readonly Problem _problem;
    private readonly Prices _prices;
    private readonly List<List<Option>> _options;
    private readonly List<Option> _chosen = [];
    private long _best = long.MaxValue;

    private Exhaustive(Problem problem)
    {
        (_problem, _prices) = (problem, problem.Prices!);
        _options = [.. problem.Batches.Select(batch => Options(batch).OrderBy(option => option.Cost).ToList())];
    }

    /// <summary>A rectangle is an area's spaces over days.</summary>
    private sealed record Rectangle(string Area, int From, int To, int First, int Count)
    {
        public bool Meets(Rectangle other) =>
            Area == other.Area && From < other.To && other.From < To && First < other.First + other.Count && other.First < First + Count;
    }

    /// <param name="Positions">Every way it can lie.</param>
    private sealed record Option(long Cost, List<Rectangle[]> Positions, string? Zone, double SetpointF, int Sow, int Emerge, int Harden, int Ready, int After);

    public static long Cheapest(Problem problem)
    {
        var search = new Exhaustive(problem);
        search.Choose(0, 0);
        return search._best;
    }

    private void Choose(int batch, long cost)
    {
        if (cost >= _best)
        {
            return;
        }

        if (batch == _options.Count)
        {
            var all = cost + _problem.Zones.Sum(ZoneCost);
            _best = all < _best && Lie(0, []) ? all : _best;
            return;
        }

        foreach (var option in _options[batch])
        {
            if (Possible(option))
            {
                _chosen.Add(option);
                Choose(batch + 1, cost + option.Cost);
                _chosen.RemoveAt(_chosen.Count - 1);
            }
        }
    }

    /// <summary>Whether the chosen ones find spaces beside each other.</summary>
    private bool Lie(int index, List<Rectangle> taken)
    {
        if (index == _chosen.Count)
        {
            return true;
        }

        foreach (var position in _chosen[index].Positions)
        {
            if (!position.Any(mine => taken.Exists(mine.Meets)))
            {
                taken.AddRange(position);
                if (Lie(index + 1, taken))
                {
                    return true;
                }

                taken.RemoveRange(taken.Count - position.Length, position.Length);
            }
        }

        return false;
    }

    private bool Possible(Option option)
    {
        if (option.Zone is null)
        {
            return true;
        }

        foreach (var other in _chosen)
        {
            var apart = other.Zone == option.Zone && !other.SetpointF.Equals(option.SetpointF)
                && other.Sow / 7 <= (option.Emerge - 1) / 7 && option.Sow / 7 <= (other.Emerge - 1) / 7;
            if (apart)
            {
                return false;
            }
        }

        for (var day = option.Harden; day < option.Ready; day++)
        {
            var there = _chosen.Where(other => other.Zone != null && other.Harden <= day && day < other.Ready).Sum(other => other.After);
            if (there + option.After > _problem.HardeningSpaces)
            {
                return false;
            }
        }

        return true;
    }

    private IEnumerable<Option> Options(Batch batch)
    {
        var crop = _problem.Crops.First(crop => crop.Id == batch.Crop);
        yield return new Option((long)_prices.UnplacedTray * batch.Trays, [[]], null, 0, 0, 0, 0, 0, 0);
        for (var ready = _problem.DayOf(batch.FirstReady); ready <= _problem.DayOf(batch.LastReady); ready++)
        {
            foreach (var bench in _problem.Benches.Where(bench => bench.Use != BenchUse.Heat))
            {
                if ((bench.Use == BenchUse.Warm ? crop.WarmDays : crop.CoolDays) is not { } growOn)
                {
                    continue;
                }

                foreach (var (setpoint, perDay) in crop.Table.Select(row => (row.SetpointF, row.ProgressPerDay)))
                {
                    var heat = 1;
                    while ((heat * perDay) < 1 - 1e-9)
                    {
                        heat++;
                    }

                    var harden = ready - _problem.HardeningDays;
                    var emerge = harden - growOn;
                    if (emerge - heat < 0)
                    {
                        continue;
                    }

                    var cost = (batch.Trays * ((_prices.DayOffDue * (long)Math.Abs(ready - _problem.DayOf(batch.Due)))
                        + (_prices.DayLate * (long)Math.Max(0, ready - _problem.DayOf(batch.LastOnTime)))))
                        + (long)(_prices.DegreeOff * Math.Abs(setpoint - crop.BestF) * heat * batch.Trays);
                    foreach (var zone in _problem.Zones)
                    {
                        yield return new Option(
                            cost, [.. Positions(batch, crop, bench, zone, emerge - heat, emerge, emerge + (growOn / 2), harden)], zone.Id, setpoint,
                            emerge - heat, emerge, harden, ready, batch.SpacesSpaced(crop));
                    }
                }
            }
        }
    }

    private static IEnumerable<Rectangle[]> Positions(
        Batch batch, Crop crop, Bench bench, HeatZone zone, int sow, int emerge, int spacing, int harden)
    {
        var (before, after) = (batch.SpacesBefore, batch.SpacesSpaced(crop));
        for (var inZone = 1; inZone + before - 1 <= zone.Spaces; inZone++)
        {
            for (var spaced = 1; spaced + after - 1 <= bench.Spaces; spaced++)
            {
                // Set apart to either side: the first run lies at one end of the second.
                foreach (var first in before == after ? new[] { spaced } : [spaced, spaced + after - before])
                {
                    yield return
                    [
                        new Rectangle(zone.Id, sow, emerge, inZone, before), new Rectangle(bench.Id, emerge, spacing, first, before),
                        new Rectangle(bench.Id, spacing, harden, spaced, after),
                    ];
                }
            }
        }
    }

    /// <summary>The cheapest setpoints by week around those the chosen batches need; off is null.</summary>
    private long ZoneCost(HeatZone zone)
    {
        double?[] levels = [null, .. zone.SetpointsF.Select(setpoint => (double?)setpoint)];
        var costs = new long[levels.Length];
        for (var week = 0; week < (_problem.Days + 6) / 7; week++)
        {
            var needed = _chosen.FirstOrDefault(option => option.Zone == zone.Id && option.Sow / 7 <= week && week <= (option.Emerge - 1) / 7);
            var next = new long[levels.Length];
            for (var level = 0; level < levels.Length; level++)
            {
                var reached = Enumerable.Range(0, levels.Length).Min(before => costs[before] + (week > 0 && before != level ? _prices.SetpointChange : 0));
                next[level] = needed is not null && !Nullable.Equals(levels[level], needed.SetpointF)
                    ? int.MaxValue
                    : reached + (levels[level] is { } on ? (long)Math.Floor(zone.Spaces * 7 * (on - 55) / 10) : 0);
            }

            costs = next;
        }

        return costs.Min();
    }
}
