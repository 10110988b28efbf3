namespace Nursery.Planning;

/// <summary>Runs of free spaces on a bench over a span of days.</summary>
public static class FreeRuns
{
    /// <summary>All maximal free runs within the spaces asked for, in order.</summary>
    public static IReadOnlyList<(int First, int Count)> Of(
        int firstSpace, int spaces, IEnumerable<Held> held, DateOnly from, DateOnly to)
    {
        var runs = new List<(int First, int Count)>();
        var free = firstSpace;
        var end = firstSpace + spaces;
        foreach (var taken in held.Where(hold => hold.Covers(from, to)).OrderBy(hold => hold.FirstSpace))
        {
            if (taken.FirstSpace >= end)
            {
                break;
            }

            if (taken.FirstSpace > free)
            {
                runs.Add((free, taken.FirstSpace - free));
            }

            free = Math.Max(free, taken.FirstSpace + taken.Spaces);
        }

        if (free < end)
        {
            runs.Add((free, end - free));
        }

        return runs;
    }

    /// <summary>The first space of the first free run of at least <paramref name="asked"/> spaces; null when there is none.</summary>
    public static int? First(PlanBench bench, int asked, IEnumerable<Held> held, DateOnly from, DateOnly to) =>
        Of(bench.FirstSpace, bench.Spaces, held, from, to)
            .Where(run => run.Count >= asked)
            .Select(run => (int?)run.First)
            .FirstOrDefault();
}
