using NodaTime;
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
            return discarding is null
                ? BatchState.Planned
                : new BatchState { Stage = BatchStage.Discarded, DiscardedOn = discarding.Day };
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

        // A day before the sowing belongs to a sowing that was taken back.
        foreach (var entry in effective.Where(entry => entry.Day >= sowing.Day))
        {
            state = entry.Value switch
            {
                Done done => AfterTask(state, done.Task, entry.Day),
                Worked { Task: { } task } => AfterTask(state, task, entry.Day),
                NotYet { Task: TaskKind.EmergenceCheck, SaysNotUp: true } => state with { LookedOn = entry.Day },
                NotYet { Task: TaskKind.ReadyCheck, SaysNotReady: true } => state with { ReadyLookedOn = entry.Day },
                Count count => AfterCount(state, count, entry),
                Loss loss => state with { Lost = state.Lost + loss.Plants },
                Placement placement => AfterPlacement(state, placement, entry),
                _ => state,
            };
        }

        return discarding is null ? state : state with { Stage = BatchStage.Discarded, DiscardedOn = discarding.Day };
    }

    /// <summary>The state after a task was done on a day; a sowing changes it by its own entry.</summary>
    public static BatchState AfterTask(BatchState state, TaskKind task, LocalDate day) => task switch
    {
        TaskKind.FirstWatering or TaskKind.Water => state with { WateredOn = day },
        TaskKind.EmergenceCheck => AtLeast(state, BatchStage.Emerging) with
        {
            LookedOn = day,
            FirstUpOn = state.FirstUpOn ?? day,
        },
        TaskKind.MoveOffHeat => OffHeat(state, day),
        TaskKind.Thin => AtLeast(state, BatchStage.GrowingOn) with { ThinnedOn = state.ThinnedOn ?? day },
        TaskKind.Feed => state with { FedOn = day },
        TaskKind.Spacing => AtLeast(state, BatchStage.GrowingOn) with { SpacedOn = state.SpacedOn ?? day },
        TaskKind.HardenOff => Hardening(state, day),
        TaskKind.ReadyCheck => AtLeast(state, BatchStage.Ready) with { ReadySeenOn = state.ReadySeenOn ?? day },
        TaskKind.HandOver => AtLeast(state, BatchStage.HandedOver) with { HandedOverOn = state.HandedOverOn ?? day },
        TaskKind.ClearBench => state with { ClearedOn = state.ClearedOn ?? day },
        TaskKind.Sow or TaskKind.Look or TaskKind.Scout => state,
        _ => throw new ArgumentOutOfRangeException(nameof(task), task, "a task kind without a rule"),
    };

    private static BatchState AfterPlacement(BatchState state, Placement placement, LedgerEntry entry) =>
        placement.BenchKind switch
        {
            BenchKind.Germination => state,
            BenchKind.Growing => OffHeat(state, entry.Day),
            BenchKind.Hardening => Hardening(state, entry.Day),
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

    private static BatchState OffHeat(BatchState state, LocalDate day) =>
        AtLeast(state, BatchStage.GrowingOn) with { OffHeatOn = state.OffHeatOn ?? day };

    private static BatchState Hardening(BatchState state, LocalDate day) =>
        AtLeast(OffHeat(state, day), BatchStage.HardeningOff) with { HardenedOn = state.HardenedOn ?? day };

    private static BatchState AtLeast(BatchState state, BatchStage stage) =>
        state.Stage < stage ? state with { Stage = stage } : state;
}
