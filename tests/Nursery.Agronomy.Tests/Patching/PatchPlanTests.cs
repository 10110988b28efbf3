using CsCheck;
using Nursery.Agronomy.Patching;
using Xunit;

namespace Nursery.Agronomy.Tests.Patching;

public sealed class PatchPlanTests
{
    /// <summary>Two trays of 72 with 60 and 10 plants: all stand in one tray after ten moves, and the fuller one stays.</summary>
    [Fact]
    public void All_TwoHalfEmptyTrays_FreesTheEmptierOne()
    {
        var plans = PatchPlan.All([new(1, 10, 0), new(2, 60, 0)], 72);
        Assert.Equal([0, 1], plans.Select(plan => plan.Emptied.Count));
        Assert.Empty(plans[0].Moves);
        Assert.Equal(new PatchMove(1, 2, 10), Assert.Single(plans[1].Moves));
        Assert.Equal((10, 70, 10 * 10 / 60m), (plans[1].Seedlings, plans[1].Plants, plans[1].Minutes));
    }

    [Fact]
    public void All_SparesAndBlanksInOneTray_AreMovedWithinIt()
    {
        var plan = PatchPlan.All([new(1, 68, 9), new(2, 70, 0)], 72)[0];
        Assert.Equal([new PatchMove(1, 1, 4), new PatchMove(1, 2, 2)], plan.Moves);
        Assert.Equal(144, plan.Plants);
    }

    [Fact]
    public void All_WantedIsReached_MovesNoMore()
    {
        Assert.Equal(3, PatchPlan.All([new(1, 60, 20)], 72, wanted: 63)[0].Seedlings);
        Assert.Empty(PatchPlan.All([new(1, 60, 20)], 72, wanted: 50)[0].Moves);
    }

    [Fact]
    public void All_OutOfRange_NamesTheInput()
    {
        Assert.Equal("trays.plants", Assert.Throws<InputOutOfRange>(() => PatchPlan.All([new(1, 73, 0)], 72)).Input);
        Assert.Equal("trays", Assert.Throws<InputOutOfRange>(() => PatchPlan.All([], 72)).Input);
        Assert.Equal("cellsPerTray", Assert.Throws<InputOutOfRange>(() => PatchPlan.All([new(1, 1, 0)], 0)).Input);
    }

    /// <summary>Up to four trays of up to four cells: every set of trays that may go and every order of moves.</summary>
    [Fact]
    public void All_SmallCases_NeedAsFewMovesAsAnyWay() => Gen.Select(
        Gen.Int[1, 4], Gen.Select(Gen.Int[0, 4], Gen.Int[0, 3]).Array[1, 4], Gen.Int[-1, 12]).Sample(
        (cells, stands, wanted) =>
        {
            TrayStand[] trays = [.. stands.Select((stand, index) => new TrayStand(index + 1, Math.Min(stand.Item1, cells), stand.Item2))];
            foreach (var plan in PatchPlan.All(trays, cells, wanted < 0 ? null : wanted))
            {
                Assert.Equal(Fewest(trays, cells, plan.Emptied.Count, plan.Plants), plan.Seedlings);
                Carry(trays, cells, plan);
            }
        },
        iter: 400);

    /// <summary>The moves of the sheet, done.</summary>
    private static void Carry(TrayStand[] trays, int cells, PatchPlan plan)
    {
        var plants = trays.ToDictionary(tray => tray.Tray, tray => tray.Plants);
        var lifted = trays.ToDictionary(tray => tray.Tray, _ => 0);
        foreach (var move in plan.Moves)
        {
            lifted[move.From] += move.Seedlings;
            plants[move.To] += move.Seedlings;
            Assert.DoesNotContain(move.To, plan.Emptied);
        }

        Assert.All(trays, tray =>
        {
            Assert.True(lifted[tray.Tray] <= tray.Spare + (plan.Emptied.Contains(tray.Tray) ? tray.Plants : 0));
            Assert.True(plants[tray.Tray] <= cells);
        });
        Assert.Equal(plan.Plants, plants.Where(tray => !plan.Emptied.Contains(tray.Key)).Sum(tray => tray.Value));
    }

    private static int Fewest(TrayStand[] trays, int cells, int gone, int plants) => Enumerable.Range(0, 1 << trays.Length)
        .Where(set => int.PopCount(set) == gone)
        .Select(set => Search(trays, cells, set, plants)).Min() ?? -1;

    /// <summary>Breadth first over what stands where, one seedling at a time.</summary>
    private static int? Search(TrayStand[] trays, int cells, int gone, int goal)
    {
        bool Goes(int tray) => (gone & (1 << tray)) != 0;
        string Key((int[] Plants, int[] Free) state) => string.Join(',', state.Plants.Concat(state.Free));
        (int[] Plants, int[] Free) start = ([.. trays.Select((tray, index) => Goes(index) ? cells : tray.Plants)],
            [.. trays.Select((tray, index) => tray.Spare + (Goes(index) ? tray.Plants : 0))]);
        var (seen, queue) = (new HashSet<string> { Key(start) }, new Queue<((int[] Plants, int[] Free) State, int Moves)>([(start, 0)]));
        while (queue.TryDequeue(out var item))
        {
            if (item.State.Plants.Where((_, tray) => !Goes(tray)).Sum() >= goal)
            {
                return item.Moves;
            }

            for (var from = 0; from < trays.Length; from++)
            {
                for (var to = 0; to < trays.Length; to++)
                {
                    if (item.State.Free[from] == 0 || item.State.Plants[to] >= cells)
                    {
                        continue;
                    }

                    (int[] Plants, int[] Free) next = ([.. item.State.Plants], [.. item.State.Free]);
                    next.Free[from]--;
                    next.Plants[to]++;
                    if (seen.Add(Key(next)))
                    {
                        queue.Enqueue((next, item.Moves + 1));
                    }
                }
            }
        }

        return null;
    }
}
