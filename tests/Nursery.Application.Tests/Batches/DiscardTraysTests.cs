using Nursery.Application.Batches;
using Nursery.Application.Rounds;
using Nursery.Domain;
using Nursery.Domain.Refusals;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Application.Tests.Batches;

public sealed class DiscardTraysTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    [Fact]
    public async Task HandleAsync_MiddleTray_FreesItsSpaceFromTodayAndTheOthersStay()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await SownAsync(nursery);
        nursery.Clock.Advance(TimeSpan.FromDays(2));

        await DiscardAsync(nursery, batch, new SpaceRun(2, 1));

        Assert.Equal(
            [("G1", new SpaceRun(1, 1), new SpaceRun(5, 1)), ("G1", new SpaceRun(3, 2), new SpaceRun(7, 2))],
            await nursery.StandingAsync());
        var page = await nursery.Get<ShowBatch>().HandleAsync(batch.Id, nursery.HeadGrower);
        Assert.Equal(
            [(5, 4, nursery.Today.PlusDays(-2)), (5, 1, nursery.Today), (7, 2, nursery.Today)],
            page.Reservations.OrderBy(row => row.From).ThenBy(row => row.FirstSpace).Select(row => (row.FirstSpace, row.Spaces, row.From)));
        var other = await nursery.PlanAsync(nursery.Tomato, trays: 1);
        Assert.Equal(6, (await nursery.ReserveAsync(other, "G1", 6, nursery.Today, nursery.Today.PlusDays(3))).FirstSpace);
    }

    [Fact]
    public async Task HandleAsync_ThenCarriedOrUndone_TheTrayStaysGoneOrComesBack()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await SownAsync(nursery);
        var entry = await DiscardAsync(nursery, batch, new SpaceRun(1, 2));
        nursery.Clock.Advance(TimeSpan.FromHours(1));
        await nursery.RecordAsync(new TraysMoved(batch.TraySetCode, new TrayChoice(4, null), "W1", 1));

        Assert.Equal([("W1", new SpaceRun(3, 2), new SpaceRun(3, 2))], await nursery.StandingAsync());
        await nursery.RecordAsync(new EntryUndone(entry));
        Assert.Equal([("W1", new SpaceRun(1, 4), new SpaceRun(1, 4))], await nursery.StandingAsync());
        Assert.Empty(await nursery.Get<RebuildStates>().HandleAsync(nursery.Administrator));
    }

    [Fact]
    public async Task HandleAsync_AllGoneOrNotThere_IsRefused()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await SownAsync(nursery);
        await DiscardAsync(nursery, batch, new SpaceRun(1, 3));

        foreach (var trays in new[] { new SpaceRun(4, 1), new SpaceRun(3, 1), new SpaceRun(5, 1), new SpaceRun(1, 0) })
        {
            var refusal = await Assert.ThrowsAsync<InvalidFields>(() => DiscardAsync(nursery, batch, trays));
            Assert.Equal("trays", refusal.Errors[0].Field);
        }
    }

    [Fact]
    public async Task HandleAsync_SameEntryTwice_DiscardsOnce()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await SownAsync(nursery);
        var request = new DiscardTraysRequest(nursery.NewEntryId(), batch.Id, new SpaceRun(1, 1), "dried out");

        Assert.Equal(EntryOutcome.Applied, await nursery.Get<DiscardTrays>().HandleAsync(request, nursery.HeadGrower));
        Assert.Equal(EntryOutcome.Repeated, await nursery.Get<DiscardTrays>().HandleAsync(request, nursery.HeadGrower));
        await Assert.ThrowsAsync<EntryDiffers>(() => nursery.Get<DiscardTrays>().HandleAsync(request with { Cause = "eaten" }, nursery.HeadGrower));
    }

    [Fact]
    public async Task HandleAsync_Planned_IsChangedNotDiscarded()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper, trays: 4);

        await Assert.ThrowsAsync<NotSownYet>(() => DiscardAsync(nursery, batch, new SpaceRun(1, 1)));
    }

    private static async Task<PlannedBatch> SownAsync(TestNursery nursery)
    {
        var batch = await nursery.PlanAsync(nursery.Pepper, trays: 4);
        await nursery.ReserveAsync(batch, "G1", 5, nursery.Today, nursery.Today.PlusDays(10));
        await nursery.SowAsync(batch);
        return batch;
    }

    private static async Task<Guid> DiscardAsync(TestNursery nursery, PlannedBatch batch, SpaceRun trays)
    {
        var entry = nursery.NewEntryId();
        await nursery.Get<DiscardTrays>().HandleAsync(new DiscardTraysRequest(entry, batch.Id, trays, "damping off"), nursery.HeadGrower);
        return entry;
    }
}
