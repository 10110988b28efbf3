using Nursery.Domain.Batches;
using Nursery.Domain.Benches;
using Nursery.Domain.Ledger;
using Nursery.Domain.Tasks;
using Nursery.Domain.Tests.Ledger;
using Xunit;
using static Nursery.Domain.Tests.Ledger.Entries;

namespace Nursery.Domain.Tests.Batches;

public sealed class BatchStoryTests
{
    [Fact]
    public void Fold_Nothing_IsPlanned() => Assert.Equal(BatchState.Planned, BatchStory.Fold([]));

    [Fact]
    public void Fold_WorkWithoutSowing_IsStillPlanned() =>
        Assert.Equal(BatchState.Planned, BatchStory.Fold([At(1, Up(10)), At(2, Done(TaskKind.Water)), At(3, new Loss(5, "slugs"))]));

    [Fact]
    public void Fold_StageByStage_Follows()
    {
        var entries = new List<LedgerEntry>();
        Step(entries, At(0, Sown()), BatchStage.Sown);
        Step(entries, At(1, Done(TaskKind.Water)), BatchStage.Sown);
        Step(entries, At(24 * 5, Up(0)), BatchStage.Sown);
        Step(entries, At(24 * 6, new NotYet(TaskKind.EmergenceCheck, 1, "not up yet")), BatchStage.Sown);
        Step(entries, At(24 * 7, Up(3)), BatchStage.Emerging);
        Step(entries, At(24 * 9, Done(TaskKind.MoveOffHeat)), BatchStage.GrowingOn);
        Step(entries, At(24 * 10, Moved(BenchKind.Germination)), BatchStage.GrowingOn);
        Step(entries, At(24 * 40, Moved(BenchKind.Hardening)), BatchStage.HardeningOff);
        Step(entries, At(24 * 50, Done(TaskKind.HandOver)), BatchStage.HandedOver);
        Step(entries, At(24 * 51, new Discarded("sold out")), BatchStage.Discarded);

        var state = BatchStory.Fold(entries);
        Assert.Equal((Day(0), Day(0), Day(7), Day(7)), (state.SownOn!.Value, state.WateredOn!.Value, state.FirstUpOn!.Value, state.LookedOn!.Value));
        Assert.Equal((Day(9), Day(50)), (state.OffHeatOn!.Value, state.HandedOverOn!.Value));
    }

    [Fact]
    public void Fold_SowingUndone_IsPlannedAgain()
    {
        var sowing = Guid.CreateVersion7();

        Assert.Equal(BatchState.Planned, BatchStory.Fold([At(0, Sown(), sowing), At(1, Up(5)), At(2, Undo(sowing))]));
    }

    [Fact]
    public void Fold_CauseUndone_TakesItsConsequencesBack()
    {
        var done = Guid.CreateVersion7();

        var state = BatchStory.Fold(
            [At(0, Sown()), At(200, Done(TaskKind.MoveOffHeat), done), At(200, Moved(BenchKind.Growing), causedBy: done), At(201, Undo(done))]);

        Assert.Equal(BatchStage.Sown, state.Stage);
        Assert.Null(state.OffHeatOn);
    }

    [Fact]
    public void Fold_UndoOfAnUndo_ChangesNothing()
    {
        var (loss, undo) = (Guid.CreateVersion7(), Guid.CreateVersion7());

        var state = BatchStory.Fold([At(0, Sown()), At(1, new Loss(5, "slugs"), loss), At(2, Undo(loss), undo), At(3, Undo(undo))]);

        Assert.Equal(0, state.Lost);
    }

    [Fact]
    public void Fold_CountFalls_KeepsTheHighestForEmergenceAndTheLastForTheStand()
    {
        var state = BatchStory.Fold([At(0, Sown(seedsPerCell: 1)), At(100, Up(120, seedsPerCell: 1)), At(150, Up(90, seedsPerCell: 1))]);

        Assert.Equal((120m, 90, Day(4)), (state.CountedUp!.Value, state.CellsUp!.Value, state.CountedOn!.Value));
    }

    [Fact]
    public void Fold_SampleThenAllCells_TheWiderCountWins()
    {
        var state = BatchStory.Fold([At(0, Sown(seedsPerCell: 1)), At(100, Up(36, cells: 36, seedsPerCell: 1)), At(150, Up(100, seedsPerCell: 1))]);
        Assert.Equal((144, 100m), (state.CountedSeeds!.Value, state.CountedUp!.Value));

        // A later sample says how the stand is, not how the seed came up.
        state = BatchStory.Fold([At(0, Sown(seedsPerCell: 1)), At(100, Up(100, seedsPerCell: 1)), At(150, Up(18, cells: 36, seedsPerCell: 1))]);
        Assert.Equal((144, 100m, 72), (state.CountedSeeds!.Value, state.CountedUp!.Value, state.CellsUp!.Value));
    }

    [Fact]
    public void Fold_CountAfterThinning_IsOfTheStandOnly()
    {
        var state = BatchStory.Fold([At(0, Sown()), At(100, Up(100)), At(300, Done(TaskKind.Thin)), At(310, Up(140))]);

        Assert.Equal((CountedEmergence.Seedlings(Up(100)), 140), (state.CountedUp!.Value, state.CellsUp!.Value));
    }

    [Fact]
    public void Fold_DeviceClockAhead_CountsByOurs()
    {
        // The tablet was two hours ahead: its 'dry' count of 9:30 was really before ours of 8:00.
        var state = BatchStory.Fold([At(-10, Sown(seedsPerCell: 1)), At(1, Up(50, seedsPerCell: 1)), At(2, Up(20, seedsPerCell: 1), skewMs: 7_200_000)]);

        Assert.Equal(50, state.CellsUp);
    }

    private static void Step(List<LedgerEntry> entries, LedgerEntry next, BatchStage stage)
    {
        entries.Add(next);
        Assert.Equal(stage, BatchStory.Fold(entries).Stage);
    }
}
