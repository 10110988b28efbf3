using CsCheck;
using Xunit;

namespace Nursery.Planning.Tests;

public sealed class FreeRunsTests
{
    private static readonly DateOnly Day0 = new(2026, 3, 2);

    private static readonly Gen<Held[]> Holds = Gen
        .Select(Gen.Int[1, 30], Gen.Int[1, 12], Gen.Int[0, 12], Gen.Int[1, 6], (first, spaces, from, days) =>
            new Held(Guid.Empty, first, spaces, Day0.AddDays(from), Day0.AddDays(from + days)))
        .Array[0, 12];

    /// <summary>Against the plainest way: look at every space and day.</summary>
    [Fact]
    public void Of_AnyHolds_EqualsLookingAtEverySpace() => Gen
        .Select(Gen.Int[1, 20], Gen.Int[1, 25], Holds, Gen.Int[0, 12], Gen.Int[1, 6])
        .Sample(
            (first, spaces, holds, from, days) =>
            {
                var (start, end) = (Day0.AddDays(from), Day0.AddDays(from + days));
                Assert.Equal(BruteForce(first, spaces, holds, start, end), FreeRuns.Of(first, spaces, holds, start, end));
            },
            iter: 5000);

    [Fact]
    public void First_AnyHolds_IsTheFirstRunLongEnough() => Gen
        .Select(Gen.Int[1, 20], Gen.Int[1, 25], Holds, Gen.Int[1, 10])
        .Sample(
            (first, spaces, holds, asked) =>
            {
                var bench = new PlanBench(Guid.Empty, BenchUse.Warm, first, spaces);
                var expected = BruteForce(first, spaces, holds, Day0, Day0.AddDays(7)).Where(run => run.Count >= asked).ToList();
                Assert.Equal(
                    expected.Count == 0 ? null : expected[0].First, FreeRuns.First(bench, asked, holds, Day0, Day0.AddDays(7)));
            },
            iter: 5000);

    [Fact]
    public void Of_HoldEndsTheDayItStarts_IsFree()
    {
        var held = new Held(Guid.Empty, 1, 4, Day0, Day0.AddDays(5));

        Assert.Equal([(1, 4)], FreeRuns.Of(1, 4, [held], Day0.AddDays(5), Day0.AddDays(6)));
        Assert.Empty(FreeRuns.Of(1, 4, [held], Day0.AddDays(4), Day0.AddDays(6)));
    }

    private static List<(int First, int Count)> BruteForce(int first, int spaces, Held[] holds, DateOnly from, DateOnly to)
    {
        var runs = new List<(int First, int Count)>();
        for (var space = first; space < first + spaces; space++)
        {
            var free = true;
            for (var day = from; day < to; day = day.AddDays(1))
            {
                free &= !holds.Any(hold => hold.FirstSpace <= space && space < hold.FirstSpace + hold.Spaces && hold.From <= day && day < hold.To);
            }

            if (free && runs.Count > 0 && runs[^1].First + runs[^1].Count == space)
            {
                runs[^1] = (runs[^1].First, runs[^1].Count + 1);
            }
            else if (free)
            {
                runs.Add((space, 1));
            }
        }

        return runs;
    }
}
