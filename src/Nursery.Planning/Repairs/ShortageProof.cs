using Nursery.Planning.Problems;
using Nursery.Planning.Search;

namespace Nursery.Planning.Repairs;

/// <summary>Adds up, for every run of weeks, the fewest space-days each batch must spend in a resource over all its timings that are on time.
/// More than there are is a proof; less proves nothing.</summary>
public static class ShortageProof
{
    private const int Resources = 5;

    /// <param name="problem">As <see cref="Checks.ProblemCheck"/> leaves it.</param>
    /// <returns>The strongest proof of every resource that has one, most trays first.</returns>
    public static IReadOnlyList<Shortage> Of(Problem problem)
    {
        var model = new SeasonModel(problem, problem.Batches);
        var there = Free(model);
        var need = new long[Resources, model.Weeks, model.Weeks];
        var most = new double[Resources, model.Weeks, model.Weeks];
        var sums = new List<int[]>();
        for (var batch = 0; batch < model.Batches.Count; batch++)
        {
            for (var resource = 0; resource < Resources; resource++)
            {
                sums.Clear();
                var modes = model.Modes;
                for (var mode = modes.Start[batch]; mode < modes.Start[batch + 1]; mode++)
                {
                    if (modes.Ready[mode] <= problem.DayOf(model.Batches[batch].LastOnTime))
                    {
                        sums.Add(SpaceDays(model, batch, mode, (Resource)resource));
                    }
                }

                AddLeast(model, sums, model.Trays[batch], need, most, resource);
            }
        }

        return [.. Enumerable.Range(0, Resources).Select(resource => Worst(model, need, most, there[resource], resource)).OfType<Shortage>()
            .OrderByDescending(shortage => shortage.TraysTooMany)];
    }

    private static void AddLeast(SeasonModel model, List<int[]> sums, int trays, long[,,] need, double[,,] most, int resource)
    {
        for (var first = 0; first < model.Weeks && sums.Count > 0; first++)
        {
            for (var last = first; last < model.Weeks; last++)
            {
                var least = int.MaxValue;
                foreach (var sum in sums)
                {
                    least = Math.Min(least, sum[last + 1] - sum[first]);
                }

                need[resource, first, last] += least;
                most[resource, first, last] = Math.Max(most[resource, first, last], (double)least / trays);
            }
        }
    }

    /// <summary>Space-days up to the start of each week.</summary>
    private static int[] SpaceDays(SeasonModel model, int batch, int mode, Resource resource)
    {
        var modes = model.Modes;
        var sums = new int[model.Weeks + 1];
        int emerge = modes.Emerge[mode], ready = modes.Ready[mode];
        var harden = ready - model.HardeningDays;
        var spacing = emerge + ((harden - emerge) / 2);
        switch (resource)
        {
            case Resource.Heat:
                Add(modes.Sow[mode], emerge, model.Before[batch]);
                break;
            case Resource.Hardening:
                Add(harden, ready, model.After[batch]);
                break;
            case Resource.WarmBenches when modes.Band[mode] != BenchUse.Warm:
            case Resource.CoolBenches when modes.Band[mode] != BenchUse.Cool:
                break;
            default:
                Add(emerge, spacing, model.Before[batch]);
                Add(spacing, harden, model.After[batch]);
                break;
        }

        return sums;

        void Add(int from, int to, int spaces)
        {
            for (var week = 0; week < model.Weeks; week++)
            {
                sums[week + 1] += spaces * (Math.Clamp(7 * (week + 1), from, to) - from);
            }
        }
    }

    private static Shortage? Worst(SeasonModel model, long[,,] need, double[,,] most, long[] there, int resource)
    {
        Shortage? worst = null;
        for (var first = 0; first < model.Weeks; first++)
        {
            var room = 0L;
            for (var last = first; last < model.Weeks; last++)
            {
                room += there[last];
                var over = need[resource, first, last] - room;
                var trays = over > 0 ? (int)Math.Ceiling((over / most[resource, first, last]) - 1e-9) : 0;
                var longer = worst is not null && trays == worst.TraysTooMany && last - first > worst.LastWeek - worst.FirstWeek;
                if (trays > (worst?.TraysTooMany ?? 0) || longer)
                {
                    var days = Math.Min(model.Days, 7 * (last + 1)) - (7 * first);
                    worst = new Shortage(
                        (Resource)resource, first + 1, last + 1, model.Problem.DateOf(7 * first), model.Problem.DateOf((7 * first) + days),
                        (int)(need[resource, first, last] / days), (int)((room + days - 1) / days), trays);
                }
            }
        }

        return worst;
    }

    /// <summary>Space-days of every resource by week, frozen trays and benches out of use taken off.</summary>
    private static long[][] Free(SeasonModel model)
    {
        var season = new Season(model);
        var heat = Of(Enumerable.Range(0, model.Zones));
        var (warm, cool) = (Of(model.WarmBenches), Of(model.CoolBenches));
        var hardening = new long[model.Weeks];
        for (var day = 0; day < model.Days; day++)
        {
            hardening[day / 7] += Math.Max(0, model.HardeningSpaces - season.Loads.On(season.Hardening, day));
        }

        return [heat, warm, cool, [.. warm.Zip(cool, (one, other) => one + other)], hardening];

        long[] Of(IEnumerable<int> areas)
        {
            var free = new long[model.Weeks];
            foreach (var area in areas)
            {
                for (var day = 0; day < model.Days; day++)
                {
                    free[day / 7] += model.Spaces[area] - season.Loads.On(area, day);
                }
            }

            return free;
        }
    }
}
