using Nursery.Planning;
using Nursery.Planning.Problems;
using Nursery.Planning.Search;

namespace Nursery.Benchmarks.Plans;

/// <summary>A person with fixed rules and no second thoughts: batches by nominal sow day, always at the setpoint nearest 75 °F that the
/// crop tolerates, always the warm bench if it may stand there, first zone and first bench in order; whole in its window, then in
/// parts, then late in parts. Counts spaces, not positions. A zone stays on from its first to its last used week.</summary>
internal sealed class PlainFirstFit
{
    private const double UsualF = 75;
    private static readonly int[] Days = [0, -1, 1, -2, 2, -3, 3, 4];
    private static readonly int[] LateDays = [5, 6, 7, 8, 9];
    private readonly Problem _problem;
    private readonly Prices _prices;
    private readonly int[][] _zones;
    private readonly double?[][] _levels;
    private readonly Dictionary<BenchUse, (int Spaces, int[] Taken)[]> _benches;
    private readonly int[] _hardening;

    private PlainFirstFit(Problem problem)
    {
        (_problem, _prices) = (problem, problem.Prices ?? Prices.Usual);
        _zones = [.. problem.Zones.Select(_ => new int[problem.Days])];
        _levels = [.. problem.Zones.Select(_ => new double?[(problem.Days + 6) / 7])];
        _benches = new[] { BenchUse.Warm, BenchUse.Cool }.ToDictionary(use => use, use => problem.Benches
            .Where(bench => bench.Use == use).Select(bench => (bench.Spaces, new int[problem.Days])).ToArray());
        _hardening = new int[problem.Days];
    }

    /// <returns>Its cost, cents.</returns>
    public static long Cost(Problem problem) => new PlainFirstFit(problem).Run();

    private long Run()
    {
        var crops = _problem.Crops.ToDictionary(crop => crop.Id);
        var jobs = _problem.Batches.Select((batch, index) =>
        {
            var crop = crops[batch.Crop];
            var row = crop.Table.OrderBy(row => Math.Abs(row.SetpointF - UsualF)).ThenBy(row => row.SetpointF).First();
            return (batch, crop, row.SetpointF, heat: ModeTable.DaysOnHeat(row.ProgressPerDay), index);
        });
        var cost = 0L;
        foreach (var (batch, crop, setpoint, heat, _) in jobs
            .OrderBy(job => _problem.DayOf(job.batch.Due) - _problem.HardeningDays - (job.crop.WarmDays ?? job.crop.CoolDays!.Value) - job.heat)
            .ThenBy(job => job.index))
        {
            cost += Place(batch, crop, setpoint, heat, Days, split: false) ?? Place(batch, crop, setpoint, heat, Days, split: true)
                ?? Place(batch, crop, setpoint, heat, LateDays, split: true) ?? (long)_prices.UnplacedTray * batch.Trays;
        }

        return cost + Enumerable.Range(0, _zones.Length).Sum(ZoneCost);
    }

    private long? Place(Batch batch, Crop crop, double setpoint, int heat, int[] days, bool split)
    {
        var band = crop.WarmDays is null ? BenchUse.Cool : BenchUse.Warm;
        var growOn = crop.WarmDays ?? crop.CoolDays!.Value;
        foreach (var off in days)
        {
            var ready = _problem.DayOf(batch.Due) + off;
            var harden = ready - _problem.HardeningDays;
            var emerge = harden - growOn;
            var sow = emerge - heat;
            var (before, after, spacing) = (batch.SpacesBefore, batch.SpacesSpaced(crop), emerge + (growOn / 2));
            if (sow < 0 || ready > _problem.Days || Most(_hardening, harden, ready) + after > _problem.HardeningSpaces)
            {
                continue;
            }

            var zones = Parts(
                Enumerable.Range(0, _zones.Length).Select(zone => Open(zone, sow, emerge, setpoint) ? Free(_problem.Zones[zone].Spaces, _zones[zone], sow, emerge) : 0),
                before, split);
            var benches = BenchParts(_benches[band], emerge, spacing, harden, before, after, split);
            if (zones is null || benches is null)
            {
                continue;
            }

            foreach (var (zone, count) in zones)
            {
                Add(_zones[zone], sow, emerge, count);
                Array.Fill(_levels[zone], setpoint, sow / 7, ((emerge - 1) / 7) - (sow / 7) + 1);
            }

            foreach (var (bench, count, countAfter) in benches)
            {
                Add(_benches[band][bench].Taken, emerge, spacing, count);
                Add(_benches[band][bench].Taken, spacing, harden, countAfter);
            }

            Add(_hardening, harden, ready, after);
            return batch.Trays * (((long)_prices.DayOffDue * Math.Abs(off)) + ((long)_prices.DayLate * Math.Max(0, off - 4)))
                + (long)Math.Round(_prices.DegreeOff * Math.Abs(setpoint - crop.BestF) * heat * batch.Trays)
                + ((long)_prices.Split * (zones.Count + benches.Count - 2));
        }

        return null;
    }

    private static List<(int Area, int Count)>? Parts(IEnumerable<int> free, int wanted, bool split)
    {
        var parts = new List<(int, int)>();
        foreach (var (room, area) in free.Select((room, area) => (room, area)))
        {
            if (room >= wanted || (split && room > 0))
            {
                parts.Add((area, Math.Min(room, wanted)));
                wanted -= Math.Min(room, wanted);
                if (wanted == 0)
                {
                    return parts;
                }
            }
        }

        return null;
    }

    private static List<(int Bench, int Count, int After)>? BenchParts(
        (int Spaces, int[] Taken)[] benches, int emerge, int spacing, int harden, int before, int after, bool split)
    {
        var free = benches.Select(bench => (Early: Free(bench.Spaces, bench.Taken, emerge, spacing), Late: Free(bench.Spaces, bench.Taken, spacing, harden))).ToList();
        var whole = free.FindIndex(room => room.Early >= before && room.Late >= after);
        if (whole >= 0)
        {
            return [(whole, before, after)];
        }

        var parts = new List<(int, int, int)>();
        for (var bench = 0; split && bench < free.Count; bench++)
        {
            // As many trays as find room both before and after spacing.
            var trays = Math.Min(before, free[bench].Early);
            while (trays > 0 && Spaced(trays) > free[bench].Late)
            {
                trays--;
            }

            if (trays > 0)
            {
                parts.Add((bench, trays, Spaced(trays)));
                (before, after) = (before - trays, after - Spaced(trays));
                if (before == 0)
                {
                    return parts;
                }
            }

            int Spaced(int count) => count == before ? after : (int)Math.Ceiling((double)count * after / before);
        }

        return null;
    }

    private bool Open(int zone, int sow, int emerge, double setpoint)
    {
        for (var week = sow / 7; week <= (emerge - 1) / 7; week++)
        {
            if ((_levels[zone][week] is { } level && !level.Equals(setpoint)) || !_problem.Zones[zone].SetpointsF.Contains(setpoint))
            {
                return false;
            }
        }

        return true;
    }

    private long ZoneCost(int zone)
    {
        var levels = _levels[zone];
        var first = Array.FindIndex(levels, level => level != null);
        var last = Array.FindLastIndex(levels, level => level != null);
        var cost = 0L;
        double? before = null;
        for (var week = 0; week < levels.Length; week++)
        {
            var level = week >= first && week <= last && first >= 0 ? levels[week] ?? before : null;
            cost += level is { } on ? SeasonModel.WeekOfHeat(_prices, _problem.Zones[zone].Spaces, on) : 0;
            cost += week > 0 && !Nullable.Equals(level, before) ? _prices.SetpointChange : 0;
            before = level;
        }

        return cost;
    }

    private static int Free(int spaces, int[] taken, int from, int to) => spaces - Most(taken, from, to);

    private static int Most(int[] taken, int from, int to)
    {
        var most = 0;
        for (var day = from; day < to; day++)
        {
            most = Math.Max(most, taken[day]);
        }

        return most;
    }

    private static void Add(int[] taken, int from, int to, int count)
    {
        for (var day = from; day < to; day++)
        {
            taken[day] += count;
        }
    }
}
