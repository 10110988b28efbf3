using Nursery.Domain.Benches;
using Nursery.Domain.Ledger;
using Nursery.Domain.Tasks;

namespace Nursery.Domain.Batches;

/// <summary>The only way a batch's state comes to be.</summary>
public static class BatchStory
{
    /// <summary>The state after all entries about a batch and its tray sets, in whatever order they arrived.
    /// Nothing that happened to a batch counts until it is sown.</summary>
    public static BatchState Fold(IReadOnlyCollection<LedgerEntry> entries)
    {
        var effective = LedgerOrder.Effective(entries);
        var sowing = effective.FirstOrDefault(entry => entry.Value is Sown);
        var discarding = effective.FirstOrDefault(entry => entry.Value is Discarded);
        if (sowing is null)
        {
            return discarding is null ? BatchState.Planned : new BatchState { Stage = BatchStage.Discarded };
        }

        var sown = (Sown)sowing.Value;
        var state = new BatchState
        {
            Stage = BatchStage.Sown,
            SownOn = sowing.Day,
            LotId = sown.Lot,
            SeedsSown = sown.Seeds,
            CellsSown = sown.Cells,
        };
        foreach (var entry in effective)
        {
            state = entry.Value switch
            {
                Done done => AfterTask(state, done.Task, entry),
                Worked { Task: { } task } => AfterTask(state, task, entry),
                NotYet { Task: TaskKind.EmergenceCheck, SaysNotUp: true } => state with { LookedOn = entry.Day },
                Count count => AfterCount(state, count, entry),
                Loss loss => state with { Lost = state.Lost + loss.Plants },
                Placement placement => AfterPlacement(state, placement, entry),
                _ => state,
            };
        }

        return discarding is null ? state : state with { Stage = BatchStage.Discarded };
    }

    private static BatchState AfterTask(BatchState state, TaskKind task, LedgerEntry entry) => task switch
    {
        TaskKind.Water => state with { WateredOn = entry.Day },
        TaskKind.EmergenceCheck => AtLeast(state, BatchStage.Emerging) with
        {
            LookedOn = entry.Day,
            FirstUpOn = state.FirstUpOn ?? entry.Day,
        },
        TaskKind.MoveOffHeat => OffHeat(state, entry),
        TaskKind.Thin => AtLeast(state, BatchStage.GrowingOn) with { ThinnedOn = state.ThinnedOn ?? entry.Day },
        TaskKind.HandOver => AtLeast(state, BatchStage.HandedOver) with { HandedOverOn = state.HandedOverOn ?? entry.Day },
        TaskKind.Sow => state,
        _ => throw new ArgumentOutOfRangeException(nameof(task), task, "a task kind without a rule"),
    };

    private static BatchState AfterPlacement(BatchState state, Placement placement, LedgerEntry entry) =>
        placement.BenchKind switch
        {
            BenchKind.Germination => state,
            BenchKind.Growing => OffHeat(state, entry),
            BenchKind.Hardening => AtLeast(OffHeat(state, entry), BatchStage.HardeningOff),
            _ => throw new ArgumentOutOfRangeException(nameof(placement), placement.BenchKind, "a bench kind without a rule"),
        };

    private static BatchState AfterCount(BatchState state, Count count, LedgerEntry entry)
    {
        var cellsUp = CountedEmergence.CellsUp(count);
        var counted = cellsUp > 0 ? AtLeast(state, BatchStage.Emerging) : state;
        counted = counted with
        {
            LookedOn = entry.Day,
            FirstUpOn = state.FirstUpOn ?? (cellsUp > 0 ? entry.Day : null),
            CellsUp = (int)Math.Round((decimal)cellsUp / count.Cells * state.CellsSown, MidpointRounding.AwayFromZero),
        };

        // After thinning a count is of the stand: it says nothing of emergence any more.
        return state.ThinnedOn is null && CountedEmergence.SaysMore(count, than: state)
            ? counted with
            {
                CountedSeeds = count.Cells * count.SeedsPerCell,
                CountedUp = CountedEmergence.Seedlings(count),
                CountedOn = entry.Day,
            }
            : counted;
    }

    private static BatchState OffHeat(BatchState state, LedgerEntry entry) =>
        AtLeast(state, BatchStage.GrowingOn) with { OffHeatOn = state.OffHeatOn ?? entry.Day };

    private static BatchState AtLeast(BatchState state, BatchStage stage) =>
        state.Stage < stage ? state with { Stage = stage } : state;
}
