using System.Diagnostics;
using System.Globalization;
using Nursery.Planning;

namespace Nursery.Benchmarks;

/// <summary>First-fit against the plainest way to do the same: a flag for every (bench, space, day).</summary>
internal static class FirstFitBenchmark
{
    private const int Days = 220;
    private static readonly DateOnly Start = new(2026, 1, 1);

    private const int Batches = 400;
    private const int Rounds = 5;

    public static Task<Measured> RunAsync()
    {
        var benches = Benches();
        var work = MakeBatches();
        var ours = Best(() => FirstFit.Place(work, benches, []).Placed.Count, out var placed);
        var flags = Best(() => PlaceOnFlags(work, benches), out var placedOnFlags);
        if (placed != placedOnFlags)
        {
            throw new InvalidOperationException($"first-fit placed {placed}, the baseline {placedOnFlags}: they do not do the same work");
        }

        return Task.FromResult(new Measured(
            "first-fit",
            string.Create(CultureInfo.InvariantCulture, $"first-fit, {Batches} batches on {benches.Count} benches ({placed} placed)"),
            ours,
            flags,
            "a flag for every bench, space and day",
            "faster than the baseline",
            ours < flags));
    }

    private static TimeSpan Best(Func<int> work, out int result)
    {
        result = work();
        var best = TimeSpan.MaxValue;
        for (var round = 0; round < Rounds; round++)
        {
            var watch = Stopwatch.StartNew();
            result = work();
            best = watch.Elapsed < best ? watch.Elapsed : best;
        }

        return best;
    }

    private static List<PlanBench> Benches()
    {
        var benches = new List<PlanBench>();
        for (var index = 0; index < 12; index++)
        {
            var use = index < 3 ? BenchUse.Heat : index % 2 == 0 ? BenchUse.Warm : BenchUse.Cool;
            benches.Add(new PlanBench(Id(index), use, 1, 120, use == BenchUse.Heat ? 20 + (index * 4) : null));
        }

        return benches;
    }

    private static List<PlanBatch> MakeBatches()
    {
        // A generator of our own, so that the same batches come on every runtime.
        var state = 12345u;
        var batches = new List<PlanBatch>(Batches);
        for (var index = 0; index < Batches; index++)
        {
            var sow = Start.AddDays((int)(Next() % 140));
            var off = sow.AddDays(4 + (int)(Next() % 8));
            var low = 15 + (Next() % 8);
            batches.Add(new PlanBatch(
                Id(1000 + index), Id(1000 + index), 2 + (int)(Next() % 20), low, low + 10,
                Next() % 2 == 0 ? BenchUse.Warm : BenchUse.Cool, sow, off, off.AddDays(20 + (int)(Next() % 30))));
        }

        return batches;

        uint Next() => (state = (state * 1664525u) + 1013904223u) >> 8;
    }

    private static int PlaceOnFlags(List<PlanBatch> batches, List<PlanBench> benches)
    {
        var taken = benches.ToDictionary(bench => bench.Id, bench => new bool[bench.Spaces, Days]);
        var placed = 0;
        foreach (var batch in batches.OrderBy(batch => batch.SowOn).ThenBy(batch => batch.Order))
        {
            var heat = Find(batch.Spaces, batch.SowOn, batch.MoveOffOn, benches.Where(bench =>
                bench.Use == BenchUse.Heat && bench.SetpointC >= batch.MinC && bench.SetpointC <= batch.MaxC));
            var bench = heat is null ? null : Find(batch.Spaces, batch.MoveOffOn, batch.GoneOn, benches.Where(row => row.Use == batch.Band));
            if (heat is null || bench is null)
            {
                continue;
            }

            Mark(heat.Value, batch.Spaces, batch.SowOn, batch.MoveOffOn);
            Mark(bench.Value, batch.Spaces, batch.MoveOffOn, batch.GoneOn);
            placed++;
        }

        return placed;

        (Guid Bench, int First)? Find(int spaces, DateOnly from, DateOnly to, IEnumerable<PlanBench> among)
        {
            foreach (var bench in among)
            {
                for (var first = 0; first + spaces <= bench.Spaces; first++)
                {
                    if (IsFree(taken[bench.Id], first, spaces, from, to))
                    {
                        return (bench.Id, first);
                    }
                }
            }

            return null;
        }

        void Mark((Guid Bench, int First) place, int spaces, DateOnly from, DateOnly to)
        {
            for (var space = place.First; space < place.First + spaces; space++)
            {
                for (var day = Day(from); day < Day(to); day++)
                {
                    taken[place.Bench][space, day] = true;
                }
            }
        }
    }

    private static bool IsFree(bool[,] taken, int first, int spaces, DateOnly from, DateOnly to)
    {
        for (var space = first; space < first + spaces; space++)
        {
            for (var day = Day(from); day < Day(to); day++)
            {
                if (taken[space, day])
                {
                    return false;
                }
            }
        }

        return true;
    }

    private static int Day(DateOnly day) => day.DayNumber - Start.DayNumber;

    private static Guid Id(int number) => new(number, 0, 0, [0, 0, 0, 0, 0, 0, 0, 0]);
}
