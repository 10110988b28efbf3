using Nursery.Application.Batches;
using Nursery.Application.Rounds;
using Nursery.Application.Setup.Lists;
using Nursery.Domain.Refusals;
using Nursery.Domain.Tasks;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Application.Tests.Batches;

public sealed class ChangeBatchTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    [Fact]
    public async Task HandleAsync_LaterDay_MovesReadyDaySpacesAndTask()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper, trays: 2, inDays: 3);
        await nursery.ReserveAsync(batch, "G1", 4, nursery.Today.PlusDays(3), nursery.Today.PlusDays(13));

        var change = await nursery.Get<ChangeBatch>().HandleAsync(
            new ChangeBatchRequest(batch.Id, 1, null, nursery.Today.PlusDays(8), null), nursery.HeadGrower);

        Assert.Equal(batch.ReadyOn.PlusDays(5), change.ReadyOn);
        var page = await nursery.Get<ShowBatch>().HandleAsync(batch.Id, nursery.HeadGrower);
        var held = Assert.Single(page.Reservations);
        Assert.Equal((4, 2, nursery.Today.PlusDays(8), nursery.Today.PlusDays(18)), (held.FirstSpace, held.Spaces, held.From, held.To));
        Assert.Equal(nursery.Today.PlusDays(8), (await nursery.TaskAsync(batch.Id, TaskKind.Sow)).DueOn);
    }

    [Fact]
    public async Task TryAsync_Change_SaysWhatFollowsAndStoresNothing()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper, trays: 2, inDays: 3);
        await nursery.ReserveAsync(batch, "G1", 1, nursery.Today.PlusDays(3), nursery.Today.PlusDays(13));

        var tried = await nursery.Get<ChangeBatch>().TryAsync(
            new ChangeBatchRequest(batch.Id, 1, 3, null, null), nursery.HeadGrower);

        Assert.Contains(tried.Follows, sentence => sentence.StartsWith("3 trays instead of 2", StringComparison.Ordinal));
        Assert.Contains(tried.Follows, sentence => sentence.Contains("spaces 1–3", StringComparison.Ordinal));
        var page = await nursery.Get<ShowBatch>().HandleAsync(batch.Id, nursery.HeadGrower);
        Assert.Equal((2, 1), (page.Batch.Trays, page.Batch.Version));
        Assert.Equal(2, Assert.Single(page.Reservations).Spaces);
    }

    [Fact]
    public async Task HandleAsync_PlaceTakenOnTheNewDays_TakesTheNextRunAndSaysSo()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper, trays: 2, inDays: 1);
        await nursery.ReserveAsync(batch, "G1", 1, nursery.Today.PlusDays(1), nursery.Today.PlusDays(6));
        var other = await nursery.PlanAsync(nursery.Pepper, trays: 2, inDays: 6);
        await nursery.ReserveAsync(other, "G1", 1, nursery.Today.PlusDays(6), nursery.Today.PlusDays(20));

        await nursery.Get<ChangeBatch>().HandleAsync(
            new ChangeBatchRequest(batch.Id, 1, null, nursery.Today.PlusDays(7), null), nursery.HeadGrower);

        var page = await nursery.Get<ShowBatch>().HandleAsync(batch.Id, nursery.HeadGrower);
        Assert.Equal((3, 2), (Assert.Single(page.Reservations).FirstSpace, page.Reservations[0].Spaces));
    }

    [Fact]
    public async Task HandleAsync_OldVersion_TellsBothValues()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper, trays: 2, inDays: 3);
        await nursery.Get<ChangeBatch>().HandleAsync(new ChangeBatchRequest(batch.Id, 1, 4, null, null), nursery.HeadGrower);

        var refusal = await Assert.ThrowsAsync<ChangedMeanwhile>(() => nursery.Get<ChangeBatch>().HandleAsync(
            new ChangeBatchRequest(batch.Id, 1, 3, null, null), nursery.HeadGrower));

        Assert.Equal(new TwoValues("trays", "3", "4"), Assert.Single(refusal.Values));
    }

    [Fact]
    public async Task HandleAsync_Sown_IsAFact()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper);
        await nursery.SowAsync(batch);

        await Assert.ThrowsAsync<AlreadySown>(() => nursery.Get<ChangeBatch>().HandleAsync(
            new ChangeBatchRequest(batch.Id, 1, 3, null, null), nursery.HeadGrower));
    }

    [Fact]
    public async Task Discard_SownBatch_FreesSpacesAndTasksAndKeepsTheStory()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper);
        await nursery.ReserveAsync(batch, "G1", 1, nursery.Today, nursery.Today.PlusDays(10));
        await nursery.SowAsync(batch);
        nursery.Clock.Advance(TimeSpan.FromDays(2));

        var request = new DiscardBatchRequest(nursery.NewEntryId(), batch.Id, "damped off");
        await nursery.Get<DiscardBatch>().HandleAsync(request, nursery.HeadGrower);

        Assert.Equal(EntryOutcome.Repeated, await nursery.Get<DiscardBatch>().HandleAsync(request, nursery.HeadGrower));
        await Assert.ThrowsAsync<EntryDiffers>(() =>
            nursery.Get<DiscardBatch>().HandleAsync(request with { Reason = "other" }, nursery.HeadGrower));
        var page = await nursery.Get<ShowBatch>().HandleAsync(batch.Id, nursery.HeadGrower);
        Assert.Equal(Domain.Batches.BatchStage.Discarded, page.Batch.Stage);
        Assert.Equal(nursery.Today, Assert.Single(page.Reservations).To);
        Assert.Empty(page.Standings);
        Assert.Equal(
            [Domain.Tasks.TaskKind.ClearBench],
            (await nursery.TasksAsync()).Where(task => task.State == TaskState.Open).Select(task => task.Kind));
        Assert.Contains(page.Story, line => line.Value is Domain.Ledger.Discarded { Reason: "damped off" });
        await Assert.ThrowsAsync<BatchClosed>(() => nursery.Get<DiscardBatch>().HandleAsync(
            new DiscardBatchRequest(nursery.NewEntryId(), batch.Id, "again"), nursery.HeadGrower));
    }

    [Fact]
    public async Task Sow_TraysReservedTwiceThatDay_StandOnceOnTheHeat()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper);
        await nursery.ReserveAsync(batch, "W1", 1, nursery.Today, nursery.Today.PlusDays(10));
        await nursery.ReserveAsync(batch, "G1", 1, nursery.Today, nursery.Today.PlusDays(10));

        await nursery.SowAsync(batch);

        Assert.Equal("G1", Assert.Single(await nursery.StandingAsync()).Bench);
        Assert.Equal(Domain.Batches.BatchStage.Sown, (await nursery.StateAsync(batch.Id)).Stage);
    }
}
