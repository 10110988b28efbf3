namespace Nursery.Planning;

/// <summary>The plainest plan: batches in order of sow day, each into the first zone that suits it and the first bench of its
/// band, at the first free run of spaces, never split. What a fixed rule can do without second thoughts.</summary>
public static class FirstFit
{
    /// <param name="batches">Tray sets to place, in any order.</param>
    /// <param name="benches">Zones and benches in index order: the order in which they are tried.</param>
    /// <param name="held">Spaces already held; they stay.</param>
    public static FirstFitResult Place(
        IReadOnlyCollection<PlanBatch> batches, IReadOnlyList<PlanBench> benches, IEnumerable<Held> held)
    {
        var taken = held.GroupBy(hold => hold.BenchId).ToDictionary(group => group.Key, group => group.ToList());
        var placed = new List<PlacedBatch>();
        var unplaced = new List<UnplacedBatch>();
        foreach (var batch in batches.OrderBy(batch => batch.SowOn).ThenBy(batch => batch.Order))
        {
            var heat = FindHeat(batch, benches, taken);
            var bench = heat is null ? null : FindBench(batch, benches, taken);
            if (heat is null || bench is null)
            {
                unplaced.Add(new UnplacedBatch(batch, WhyNot(batch, benches, heatFound: heat is not null)));
                continue;
            }

            Take(taken, heat);
            Take(taken, bench);
            placed.Add(new PlacedBatch(batch, heat, bench));
        }

        return new FirstFitResult(placed, unplaced);
    }

    private static Held? FindHeat(PlanBatch batch, IReadOnlyList<PlanBench> benches, Dictionary<Guid, List<Held>> taken) =>
        Find(batch.Spaces, benches.Where(bench => Suits(bench, batch)), taken, batch.SowOn, batch.MoveOffOn);

    private static Held? FindBench(PlanBatch batch, IReadOnlyList<PlanBench> benches, Dictionary<Guid, List<Held>> taken) =>
        Find(batch.Spaces, benches.Where(bench => bench.Use == batch.Band), taken, batch.MoveOffOn, batch.GoneOn);

    private static Held? Find(
        int spaces, IEnumerable<PlanBench> benches, Dictionary<Guid, List<Held>> taken, DateOnly from, DateOnly to)
    {
        foreach (var bench in benches)
        {
            if (FreeRuns.First(bench, spaces, taken.GetValueOrDefault(bench.Id) ?? [], from, to) is { } first)
            {
                return new Held(bench.Id, first, spaces, from, to);
            }
        }

        return null;
    }

    private static bool Suits(PlanBench bench, PlanBatch batch) =>
        bench.Use == BenchUse.Heat && bench.Suits(batch.MinC, batch.MaxC, batch.SowOn, batch.MoveOffOn);

    private static WhyUnplaced WhyNot(PlanBatch batch, IReadOnlyList<PlanBench> benches, bool heatFound)
    {
        if (heatFound)
        {
            return benches.Any(bench => bench.Use == batch.Band) ? WhyUnplaced.BenchesFull : WhyUnplaced.NoBenchOfBand;
        }

        return benches.Any(bench => Suits(bench, batch)) ? WhyUnplaced.ZonesFull : WhyUnplaced.NoZoneSuits;
    }

    private static void Take(Dictionary<Guid, List<Held>> taken, Held hold)
    {
        if (!taken.TryGetValue(hold.BenchId, out var list))
        {
            taken[hold.BenchId] = list = [];
        }

        list.Add(hold);
    }
}
