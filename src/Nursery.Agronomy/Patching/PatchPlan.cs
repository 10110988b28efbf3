namespace Nursery.Agronomy.Patching;

/// <summary>Seedlings moved into blanks so that trays are full, and trays that are empty after it.</summary>
/// <param name="Moves">Which tray into which; a spare seedling goes into a blank of its own tray where there is one.</param>
/// <param name="Emptied">Trays that go.</param>
/// <param name="Seedlings">Moved in all: the fewest there can be for so many plants in so many trays.</param>
/// <param name="Plants">Cells with a plant after it.</param>
public sealed record PatchPlan(IReadOnlyList<PatchMove> Moves, IReadOnlyList<int> Emptied, int Seedlings, int Plants)
{
    /// <summary>Minutes of hand work.</summary>
    public decimal Minutes => Seedlings * WorkTime.Of(HandWork.PatchCell).Seconds / 60;

    /// <summary>Every number of trays that can go, none first: plants are the most there can be, no more than wanted and none thrown away.
    /// Whatever is moved fills a blank of a tray that stays, so n plants in the trays K take n − (plants in K) moves, fewest when the trays
    /// with most plants stay (elementary; checked against every way on small cases).</summary>
    /// <param name="trays">One or more, each number once.</param>
    /// <param name="cellsPerTray">1 to 2000.</param>
    /// <param name="wanted">Plants that are enough; null for as many as there are.</param>
    /// <exception cref="InputOutOfRange">An input outside its range.</exception>
    public static IReadOnlyList<PatchPlan> All(IReadOnlyList<TrayStand> trays, int cellsPerTray, int? wanted = null)
    {
        InputOutOfRange.Within(trays.Count, 1, 10_000, nameof(trays), "trays");
        InputOutOfRange.Within(cellsPerTray, 1, 2000, nameof(cellsPerTray), "cells");
        foreach (var tray in trays)
        {
            InputOutOfRange.Within(tray.Plants, 0, cellsPerTray, "trays.plants", "cells");
            InputOutOfRange.Within(tray.Spare, 0, 1_000_000, "trays.spare", "seedlings");
        }

        var plants = trays.Sum(tray => tray.Plants);
        var all = Math.Min(plants + trays.Sum(tray => tray.Spare), trays.Count * cellsPerTray);
        var goal = Math.Max(plants, Math.Min(all, wanted ?? all));
        var fewest = Math.Max(1, (goal + cellsPerTray - 1) / cellsPerTray);
        var fullest = trays.OrderByDescending(tray => tray.Plants).ThenByDescending(tray => tray.Spare).ThenBy(tray => tray.Tray).ToList();
        return [.. Enumerable.Range(0, trays.Count - fewest + 1).Select(gone => Of(fullest, trays.Count - gone, cellsPerTray, goal))];
    }

    private static PatchPlan Of(List<TrayStand> fullest, int staying, int cellsPerTray, int goal)
    {
        var (stay, gone) = (fullest[..staying], fullest[staying..]);
        var left = goal - stay.Sum(tray => tray.Plants);
        var moves = new List<PatchMove>();
        var blanks = stay.ToDictionary(tray => tray.Tray, tray => cellsPerTray - tray.Plants);
        var spares = stay.ToDictionary(tray => tray.Tray, tray => tray.Spare);

        // Plants of the trays that go are wanted before spares that could stay where they are.
        var lifted = gone.Sum(tray => tray.Plants);
        foreach (var tray in stay)
        {
            var own = Math.Min(Math.Min(spares[tray.Tray], blanks[tray.Tray]), left - lifted);
            Move(tray.Tray, tray.Tray, own);
            spares[tray.Tray] -= Math.Max(0, own);
        }

        var sources = gone.Select(tray => (tray.Tray, Left: tray.Plants))
            .Concat(gone.Select(tray => (tray.Tray, Left: tray.Spare))).Concat(stay.Select(tray => (tray.Tray, Left: spares[tray.Tray])));
        var targets = new Queue<int>(stay.Where(tray => blanks[tray.Tray] > 0).OrderBy(tray => blanks[tray.Tray]).Select(tray => tray.Tray));
        foreach (var (tray, has) in sources)
        {
            var open = has;
            while (open > 0 && left > 0)
            {
                var target = targets.Peek();
                var some = Math.Min(Math.Min(open, blanks[target]), left);
                Move(tray, target, some);
                open -= some;
                if (blanks[target] == 0)
                {
                    targets.Dequeue();
                }
            }
        }

        var together = moves.GroupBy(move => (move.From, move.To)).Select(group => new PatchMove(group.Key.From, group.Key.To, group.Sum(move => move.Seedlings)));
        return new PatchPlan(
            [.. together.OrderBy(move => move.From).ThenBy(move => move.To)], [.. gone.Select(tray => tray.Tray).Order()],
            moves.Sum(move => move.Seedlings), goal);

        void Move(int from, int to, int seedlings)
        {
            if (seedlings > 0)
            {
                moves.Add(new PatchMove(from, to, seedlings));
                blanks[to] -= seedlings;
                left -= seedlings;
            }
        }
    }
}
