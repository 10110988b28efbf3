using CsCheck;
using Xunit;

namespace Nursery.Planning.Tests;

public sealed class FirstFitTests
{
    private static readonly DateOnly Day0 = new(2026, 3, 2);
    private static readonly Guid Heat = Number(1);
    private static readonly Guid WarmA = Number(2);
    private static readonly Guid WarmB = Number(3);
    private static readonly Guid Cool = Number(4);

    /// <summary>One heated bench with a zone at 27 °C and one at 21 °C, two warm benches, a cool one.</summary>
    private static readonly PlanBench[] Benches =
    [
        new(Heat, BenchUse.Heat, 1, 10, 27),
        new(Heat, BenchUse.Heat, 11, 10, 21),
        new(WarmA, BenchUse.Warm, 1, 8),
        new(WarmB, BenchUse.Warm, 1, 20),
        new(Cool, BenchUse.Cool, 1, 12),
    ];

    [Fact]
    public void Place_OneBatch_TakesTheFirstZoneAndBench()
    {
        var placed = Assert.Single(FirstFit.Place([Batch(1)], Benches, []).Placed);

        Assert.Equal(new Held(Heat, 1, 4, Day0, Day0.AddDays(10)), placed.Heat);
        Assert.Equal(new Held(WarmA, 1, 4, Day0.AddDays(10), Day0.AddDays(50)), placed.Bench);
    }

    [Fact]
    public void Place_Zone_MustSuitTheSeed()
    {
        var result = FirstFit.Place([Batch(1) with { MaxC = 24 }], Benches, []);
        Assert.Equal(11, Assert.Single(result.Placed).Heat.FirstSpace);

        // The ends of the band count as suiting.
        Assert.Equal(1, FirstFit.Place([Batch(1) with { MinC = 27, MaxC = 27 }], Benches, []).Placed[0].Heat.FirstSpace);
    }

    [Fact]
    public void Place_Order_IsSowDayThenTies()
    {
        var (later, tieB, tieA) = (Batch(1) with { SowOn = Day0.AddDays(1) }, Batch(3), Batch(2));

        var result = FirstFit.Place([later, tieB, tieA], Benches, []);

        Assert.Equal([tieA.Id, tieB.Id, later.Id], result.Placed.Select(row => row.Batch.Id));
        Assert.Equal([1, 5, 11], result.Placed.Select(row => row.Heat.FirstSpace));
    }

    [Fact]
    public void Place_FirstBenchFull_TakesTheNextOfTheBand()
    {
        var result = FirstFit.Place([Batch(1), Batch(2), Batch(3)], Benches, []);

        Assert.Equal([(WarmA, 1), (WarmA, 5), (WarmB, 1)], result.Placed.Select(row => (row.Bench.BenchId, row.Bench.FirstSpace)));
    }

    [Fact]
    public void Place_HolesTooSmall_AreNotFilledByParts()
    {
        // Spaces 3–4 and 7–8 are held: six are free in each zone, never four in a row before 9.
        var held = new[] { new Held(Heat, 3, 2, Day0, Day0.AddDays(20)), new Held(Heat, 7, 2, Day0, Day0.AddDays(20)) };

        Assert.Equal(11, Assert.Single(FirstFit.Place([Batch(1)], Benches, held).Placed).Heat.FirstSpace);
    }

    [Fact]
    public void Place_NoZoneOrBench_SaysWhy()
    {
        Assert.Equal(WhyUnplaced.NoZoneSuits, Why(Batch(1) with { MinC = 30, MaxC = 35 }));
        Assert.Equal(WhyUnplaced.ZonesFull, Why(Batch(1) with { Spaces = 11 }));
        Assert.Equal(WhyUnplaced.NoBenchOfBand, Why(Batch(1) with { Band = BenchUse.Hardening }));
        Assert.Equal(
            WhyUnplaced.BenchesFull, Why(Batch(1) with { Band = BenchUse.Cool }, new Held(Cool, 4, 6, Day0, Day0.AddDays(90))));
    }

    [Fact]
    public void Place_NoBenchForIt_HoldsNoHeatEither()
    {
        var result = FirstFit.Place([Batch(1) with { Band = BenchUse.Hardening }, Batch(2)], Benches, []);

        Assert.Equal(1, Assert.Single(result.Placed).Heat.FirstSpace);
    }

    [Fact]
    public void Place_AnyBatches_NeverTwoOnOneSpaceAndDay() => Gen
        .Select(Batches(), Gen.Select(Gen.Int[1, 16], Gen.Int[0, 60], Gen.Int[1, 40], (first, from, days) =>
            new Held(WarmB, first, 3, Day0.AddDays(from), Day0.AddDays(from + days))).Array[0, 2])
        .Sample(
            (batches, more) =>
            {
                var held = more.Take(1).ToArray();
                var result = FirstFit.Place(batches, Benches, held);

                var cells = result.Placed.SelectMany(row => new[] { row.Heat, row.Bench }).Concat(held).SelectMany(Cells).ToList();
                Assert.Equal(cells.Count, cells.Distinct().Count());
                Assert.Equal(batches.Length, result.Placed.Count + result.Unplaced.Count);
                Assert.All(result.Placed, row =>
                {
                    Assert.Equal((row.Batch.Spaces, row.Batch.Spaces), (row.Heat.Spaces, row.Bench.Spaces));
                    Assert.Equal(row.Heat.To, row.Bench.From);
                    Assert.Contains(Benches, bench => bench.Use == BenchUse.Heat && bench.SetpointC >= row.Batch.MinC
                        && bench.SetpointC <= row.Batch.MaxC && Inside(bench, row.Heat));
                    Assert.Contains(Benches, bench => bench.Use == row.Batch.Band && Inside(bench, row.Bench));
                });
            },
            iter: 400);

    [Fact]
    public void Place_BatchesInAnyOrder_GiveTheSamePlan() => Batches()
        .SelectMany(batches => Gen.Shuffle(batches).Select(shuffled => (batches, shuffled)))
        .Sample(
            (batches, shuffled) => Assert.Equal(
                FirstFit.Place(batches, Benches, []).Placed, FirstFit.Place(shuffled, Benches, []).Placed),
            iter: 400);

    private static Gen<PlanBatch[]> Batches() => Gen
        .Select(Gen.Int[1, 12], Gen.Int[0, 60], Gen.Int[1, 14], Gen.Int[1, 50], Gen.Int[0, 2])
        .Array[1, 25]
        .Select(rows => rows.Select((row, index) => Batch(index + 1) with
        {
            Spaces = row.Item1,
            SowOn = Day0.AddDays(row.Item2),
            MoveOffOn = Day0.AddDays(row.Item2 + row.Item3),
            GoneOn = Day0.AddDays(row.Item2 + row.Item3 + row.Item4),
            MaxC = row.Item5 == 0 ? 24 : 35,
            Band = row.Item5 == 1 ? BenchUse.Cool : BenchUse.Warm,
        }).ToArray());

    private static WhyUnplaced Why(PlanBatch batch, params Held[] held) =>
        Assert.Single(FirstFit.Place([batch], Benches, held).Unplaced).Why;

    private static bool Inside(PlanBench bench, Held hold) => bench.Id == hold.BenchId
        && bench.FirstSpace <= hold.FirstSpace && hold.FirstSpace + hold.Spaces <= bench.FirstSpace + bench.Spaces;

    private static IEnumerable<(Guid, int, DateOnly)> Cells(Held hold) =>
        from space in Enumerable.Range(hold.FirstSpace, hold.Spaces)
        from day in Enumerable.Range(0, hold.To.DayNumber - hold.From.DayNumber)
        select (hold.BenchId, space, hold.From.AddDays(day));

    private static PlanBatch Batch(int number) => new(
        Number(100 + number), Number(100 + number), 4, 18, 35, BenchUse.Warm, Day0, Day0.AddDays(10), Day0.AddDays(50));

    private static Guid Number(int number) => new(number, 0, 0, new byte[8]);
}
