using System.Globalization;
using NodaTime;
using Nursery.Domain;
using Nursery.Domain.Benches;
using Nursery.Domain.Refusals;
using Nursery.Planning;

namespace Nursery.Application.Reservations;

/// <summary>Finds a run of spaces for trays on a bench, or says why there is none.</summary>
internal static class SpaceSearch
{
    /// <summary>The space asked for, when the run from there is on the bench, warm enough and free.</summary>
    public static int Asked(
        Bench bench, int asked, int spaces, IReadOnlyList<HeldBy> held, BenchTemperatures temperatures)
    {
        if (asked < 1 || asked > bench.Capacity - spaces + 1)
        {
            var last = bench.Capacity - spaces + 1;
            throw new InvalidFields(
                "firstSpace",
                asked.ToString(CultureInfo.InvariantCulture),
                last < 1
                    ? string.Create(CultureInfo.InvariantCulture, $"none: bench {bench.Code} has {bench.Capacity} spaces, {spaces} are needed")
                    : string.Create(CultureInfo.InvariantCulture, $"1–{last}: {spaces} spaces on bench {bench.Code} of {bench.Capacity}"));
        }

        var run = new SpaceRun(asked, spaces);
        if (held.FirstOrDefault(hold => hold.Out is not null && hold.Run.Overlaps(run)) is { Out: { } notInUse })
        {
            throw notInUse;
        }

        temperatures.Refuse(run);
        return held.Where(hold => hold.Run.Overlaps(run)).MinBy(hold => hold.Run.First) is { } taken
            ? throw new SpaceTaken(bench.Code, run, taken.TraySetCode, taken.Until)
            : asked;
    }

    /// <summary>The first space of the first free run that suits.</summary>
    public static int First(
        Bench bench,
        int spaces,
        LocalDate fromDay,
        LocalDate toDay,
        IReadOnlyList<HeldBy> held,
        BenchTemperatures temperatures)
    {
        var holds = held.Select(hold => hold.AsHeld()).ToList();
        var (from, to) = (fromDay.ToDateOnly(), toDay.ToDateOnly());
        var runs = FreeRuns.Of(1, bench.Capacity, holds, from, to);
        if (runs.All(run => run.Count < spaces))
        {
            // Full for good or only while some of it is out of use: people want to know which.
            var trays = held.Where(hold => hold.Out is null).Select(hold => hold.AsHeld());
            if (held.FirstOrDefault(hold => hold.Out is not null) is { Out: { } notInUse }
                && FreeRuns.Of(1, bench.Capacity, trays, from, to).Any(run => run.Count >= spaces))
            {
                throw notInUse;
            }

            throw new BenchIsFull(
                bench.Code, bench.Capacity, runs.Sum(run => run.Count), runs.Select(run => run.Count).DefaultIfEmpty(0).Max(), spaces);
        }

        foreach (var stretch in temperatures.Suitable())
        {
            var first = FreeRuns.Of(stretch.First, stretch.Count, holds, from, to).FirstOrDefault(run => run.Count >= spaces).First;
            if (first > 0)
            {
                return first;
            }
        }

        // There is room, but not where it suits: say what is wrong with the first free run.
        temperatures.Refuse(new SpaceRun(runs.First(run => run.Count >= spaces).First, spaces));
        var suitable = temperatures.Suitable().SelectMany(stretch => FreeRuns.Of(stretch.First, stretch.Count, holds, from, to)).ToList();
        throw new BenchIsFull(
            bench.Code, bench.Capacity, suitable.Sum(run => run.Count), suitable.Select(run => run.Count).DefaultIfEmpty(0).Max(), spaces);
    }
}
