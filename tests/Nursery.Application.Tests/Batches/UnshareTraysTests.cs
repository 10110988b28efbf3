using Nursery.Application.Batches;
using Nursery.Application.Reservations;
using Nursery.Application.Rounds;
using Nursery.Application.Setup.Lists;
using Nursery.Domain.Ledger;
using Nursery.Domain.Refusals;
using Nursery.Domain.Tasks;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Application.Tests.Batches;

public sealed class UnshareTraysTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    [Fact]
    public async Task HandleAsync_OneOfThree_GetsItsOwnAndTheOthersCloseUp()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var (pepper, tomato, second) = await ThreeAsync(nursery);
        await nursery.ReserveAsync(pepper, "G1", 1, nursery.Today.PlusDays(3), nursery.Today.PlusDays(13));

        var own = await UnshareAsync(nursery, pepper);

        // 12 rows of 6 cells a tray: 10 + 8 + 10 rows lay in three trays, 8 + 10 stay in two; the space of the third is free.
        Assert.Equal((pepper.Code + "-2", 1, 72), (own.TraySetCode, own.Trays, own.Cells));
        Assert.Contains(own.Follows, line => line.Contains($"{pepper.TraySetCode} has 2 trays now, for {tomato.Code}, {second.Code}", StringComparison.Ordinal));
        Assert.Contains(own.Follows, line => line.Contains("1 space is free again", StringComparison.Ordinal));
        Assert.Contains(own.Follows, line => line.Contains($"{own.TraySetCode} has no place yet", StringComparison.Ordinal));
        var page = await PageAsync(nursery, pepper);
        Assert.Equal((own.TraySetCode, null, 72), (page.Batch.TraySetCode, page.Batch.Part, page.Batch.Cells));
        Assert.Empty(page.SharedWith);
        Assert.Empty(page.Reservations);
        Assert.Equal([tomato.Code, second.Code], page.Story.Select(row => row.Value).OfType<TraysUnshared>().Single().Without);
        var stays = await PageAsync(nursery, second);
        Assert.Equal((pepper.TraySetCode, "tray 1 cell rows 9–12, tray 2 cell rows 1–6", 60), (stays.Batch.TraySetCode, stays.Batch.Part, stays.Batch.Cells));
        Assert.Equal(tomato.Code, Assert.Single(stays.SharedWith).Code);
        Assert.Equal((1, 2), (Assert.Single(stays.Reservations).FirstSpace, stays.Reservations[0].Spaces));
        Assert.Equal("tray 1 cell rows 1–8", (await PageAsync(nursery, tomato)).Batch.Part);
    }

    [Fact]
    public async Task HandleAsync_OneOfTwo_LeavesTheOtherItsTraysAlone()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var (pepper, tomato) = await TwoAsync(nursery);

        await UnshareAsync(nursery, tomato);

        var page = await PageAsync(nursery, pepper);
        Assert.Equal((pepper.TraySetCode, null, 72, 1), (page.Batch.TraySetCode, page.Batch.Part, page.Batch.Cells, page.Batch.Trays));
        Assert.Equal([tomato.Code], page.Story.Select(row => row.Value).OfType<TraysUnshared>().Single().Without);
        Assert.DoesNotContain("cell row", (await nursery.TaskAsync(pepper.Id, TaskKind.Sow)).Why, StringComparison.Ordinal);
        Assert.Empty(await nursery.Get<RebuildStates>().HandleAsync(nursery.Administrator));

        // And together again.
        var again = await PageAsync(nursery, tomato);
        await nursery.Get<ShareTrays>().HandleAsync(
            new ShareTraysRequest([new(pepper.Id, page.Batch.Version, 4), new(tomato.Id, again.Batch.Version, 8)]), nursery.HeadGrower);
        Assert.Equal("cell rows 5–12", (await PageAsync(nursery, tomato)).Batch.Part);
    }

    [Fact]
    public async Task HandleAsync_NotSharedSownOrChanged_IsRefusedWithWhy()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var alone = await nursery.PlanAsync(nursery.Pepper, trays: 1, inDays: 3);
        var (pepper, tomato) = await TwoAsync(nursery, inDays: 0);

        await Assert.ThrowsAsync<NotShared>(() => nursery.Get<UnshareTrays>().HandleAsync(alone.Id, 1, nursery.HeadGrower));
        await Assert.ThrowsAsync<ChangedMeanwhile>(() => nursery.Get<UnshareTrays>().HandleAsync(tomato.Id, 1, nursery.HeadGrower));
        await nursery.SowAsync(pepper);
        var before = await nursery.LedgerCountAsync();
        var refusal = await Assert.ThrowsAsync<SharedTraysSown>(() => UnshareAsync(nursery, tomato));
        Assert.Contains($"Batch {pepper.Code} is already sown in the trays {pepper.TraySetCode}", refusal.Message, StringComparison.Ordinal);
        Assert.Equal(before, await nursery.LedgerCountAsync());
    }

    [Fact]
    public async Task FirstFit_SharedTrays_ArePlacedAsOneForAllInThem()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var (pepper, tomato) = await TwoAsync(nursery);

        var outcome = await nursery.Get<PlaceByFirstFit>().HandleAsync(nursery.HeadGrower);

        Assert.Equal((1, 0), (outcome.Placed, outcome.NotPlaced.Count));
        var (first, second) = (await PageAsync(nursery, pepper), await PageAsync(nursery, tomato));
        Assert.Equal(first.Reservations, second.Reservations);
        Assert.Equal(2, first.Reservations.Count);
        Assert.Equal(1, first.Reservations[0].Spaces);

        // On heat until the later of the two may leave it: planned heat days stand in the crops.
        var days = new[] { TestCrops.Pepper().PlannedHeatDays, TestCrops.Tomato().PlannedHeatDays };
        Assert.Equal(nursery.Today.PlusDays(3 + days.Max()), first.Reservations.Min(row => row.To));
    }

    private static async Task<UnsharedTrays> UnshareAsync(TestNursery nursery, PlannedBatch batch) =>
        await nursery.Get<UnshareTrays>().HandleAsync(batch.Id, (await PageAsync(nursery, batch)).Batch.Version, nursery.HeadGrower);

    private static Task<BatchPage> PageAsync(TestNursery nursery, PlannedBatch batch) =>
        nursery.Get<ShowBatch>().HandleAsync(batch.Id, nursery.HeadGrower);

    private static async Task<(PlannedBatch Pepper, PlannedBatch Tomato)> TwoAsync(TestNursery nursery, int inDays = 3)
    {
        var pepper = await nursery.PlanAsync(nursery.Pepper, trays: 1, inDays: inDays);
        var tomato = await nursery.PlanAsync(nursery.Tomato, trays: 1, inDays: inDays);
        await nursery.Get<ShareTrays>().HandleAsync(new ShareTraysRequest([new(pepper.Id, 1, 4), new(tomato.Id, 1, 8)]), nursery.HeadGrower);
        return (pepper, tomato);
    }

    private static async Task<(PlannedBatch Pepper, PlannedBatch Tomato, PlannedBatch Second)> ThreeAsync(TestNursery nursery)
    {
        var pepper = await nursery.PlanAsync(nursery.Pepper, trays: 3, inDays: 3);
        var tomato = await nursery.PlanAsync(nursery.Tomato, trays: 1, inDays: 3);
        var second = await nursery.PlanAsync(nursery.Tomato, trays: 1, inDays: 3);
        await nursery.Get<ShareTrays>().HandleAsync(
            new ShareTraysRequest([new(pepper.Id, 1, 10), new(tomato.Id, 1, 8), new(second.Id, 1, 10)]), nursery.HeadGrower);
        return (pepper, tomato, second);
    }
}
