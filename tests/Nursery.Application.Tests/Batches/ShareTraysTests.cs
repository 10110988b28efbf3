using Microsoft.EntityFrameworkCore;
using Nursery.Application.Batches;
using Nursery.Application.Benches;
using Nursery.Application.Rounds;
using Nursery.Application.Setup.Lists;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.Crops;
using Nursery.Domain.Ledger;
using Nursery.Domain.Refusals;
using Nursery.Domain.Tasks;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Application.Tests.Batches;

public sealed class ShareTraysTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    [Fact]
    public async Task HandleAsync_TwoSmallBatches_LieInOneTrayInRowsOfTheirOwn()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var (pepper, tomato) = await TwoAsync(nursery);
        await nursery.ReserveAsync(pepper, "G1", 1, nursery.Today.PlusDays(3), nursery.Today.PlusDays(13));
        await nursery.ReserveAsync(tomato, "G1", 5, nursery.Today.PlusDays(3), nursery.Today.PlusDays(13));

        var shared = await nursery.Get<ShareTrays>().HandleAsync(
            new ShareTraysRequest([new(pepper.Id, 1, 4), new(tomato.Id, 1, 8)]), nursery.HeadGrower);

        Assert.Equal((pepper.TraySetCode, 1, 1, 0), (shared.TraySetCode, shared.Trays, shared.TraysSaved, shared.SpareRows));
        Assert.Equal((TestCrops.Celsius(65), TestCrops.Celsius(95)), (shared.MinC, shared.MaxC));
        var page = await nursery.Get<ShowBatch>().HandleAsync(tomato.Id, nursery.HeadGrower);
        Assert.Equal((pepper.TraySetCode, "cell rows 5–12", 48), (page.Batch.TraySetCode, page.Batch.Part, page.Batch.Cells));
        var other = Assert.Single(page.SharedWith);
        Assert.Equal((pepper.Code, "cell rows 1–4"), (other.Code, other.Part));
        Assert.Equal(1, Assert.Single(page.Reservations).FirstSpace);
        var line = page.Story.Select(row => row.Value).OfType<TraysShared>().Single();
        Assert.Equal(("cell rows 5–12", 48), (line.Part, line.Cells));
        Assert.StartsWith($"cell rows 5–12 of {pepper.TraySetCode}, 1 seed a cell", (await nursery.TaskAsync(tomato.Id, TaskKind.Sow)).Why, StringComparison.Ordinal);

        var bench = (await nursery.Get<ShowHouses>().HandleAsync(nursery.Today.PlusDays(3), nursery.HeadGrower)).Houses[0].Benches[0];
        Assert.Equal(["cell rows 1–4", "cell rows 5–12"], bench.Trays.Select(row => row.Part!));
        Assert.Equal(23, bench.Free);
    }

    [Fact]
    public async Task TryAsync_Rows_AreWhatTheOrdersNeedAndNothingIsStored()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await nursery.ImportAsync(
            $"O-{nursery.At.Site.Code}-1,Green Acre,{nursery.Pepper.Code},10,2026-06-01", $"O-{nursery.At.Site.Code}-2,Green Acre,{nursery.Tomato.Code},20,2026-06-01");
        await nursery.Get<PlanFromOrders>().HandleAsync(new PlanFromOrdersRequest(null), nursery.HeadGrower);
        var partners = await nursery.Get<ListTrayPartners>().HandleAsync([], nursery.HeadGrower);
        await MoveTogetherAsync(nursery, partners);
        partners = await nursery.Get<ListTrayPartners>().HandleAsync([], nursery.HeadGrower);

        var tried = await nursery.Get<ShareTrays>().TryAsync(
            new ShareTraysRequest([.. partners.OrderBy(row => row.BatchCode, StringComparer.Ordinal).Select(row => new TrayPart(row.BatchId, row.Version, null))]),
            nursery.HeadGrower);

        // A tray each whatever is done, so one seed a cell costs least; at 0.746 and 0.778 a seed 20 and 36 cells by a plain double sum,
        // 4 and 6 rows of 6.
        Assert.Equal([(20, 4), (36, 6)], tried.Parts.Select(part => (part.CellsNeeded, part.Rows)));
        Assert.Equal(2, tried.SpareRows);
        Assert.Null((await nursery.Get<ShowBatch>().HandleAsync(partners[0].BatchId, nursery.HeadGrower)).Batch.Part);
    }

    [Fact]
    public async Task HandleAsync_BandsApart_SaysBothTemperatures()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var spinach = await SpinachAsync(nursery);
        var pepper = await nursery.PlanAsync(nursery.Pepper, trays: 1, inDays: 3);
        var cool = await nursery.PlanAsync(spinach.Variety, trays: 1, inDays: 3, lot: spinach.Lot);

        var refusal = await Assert.ThrowsAsync<BandsDoNotMeet>(() => nursery.Get<ShareTrays>().HandleAsync(
            new ShareTraysRequest([new(pepper.Id, 1, 4), new(cool.Id, 1, 8)]), nursery.HeadGrower));

        Assert.Equal((TestCrops.Celsius(65), TestCrops.Celsius(60)), (refusal.LeastC, refusal.MostC));
        var partner = (await nursery.Get<ListTrayPartners>().HandleAsync([pepper.Id], nursery.HeadGrower)).Single(row => row.BatchId == cool.Id);
        Assert.IsType<BandsDoNotMeet>(partner.WhyNot);
    }

    [Fact]
    public async Task ListTrayPartners_SeveralBatches_SameHeatAndDayFirst()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var chosen = await nursery.PlanAsync(nursery.Tomato, trays: 1, inDays: 4);
        var late = await nursery.PlanAsync(nursery.Tomato, trays: 1, inDays: 9);
        var dayAfter = await nursery.PlanAsync(nursery.Tomato, trays: 1, inDays: 5);
        var same = await nursery.PlanAsync(nursery.Tomato, trays: 1, inDays: 4);
        var warmer = await nursery.PlanAsync(nursery.Pepper, trays: 1, inDays: 4);

        var partners = await nursery.Get<ListTrayPartners>().HandleAsync([chosen.Id], nursery.HeadGrower);

        Assert.Equal(
            [chosen.Code, same.Code, dayAfter.Code, warmer.Code, late.Code], partners.Select(row => row.BatchCode));
        Assert.IsType<MoveOffDaysApart>(partners[^1].WhyNot);
        Assert.True(partners[1].SameBand && partners[1].WhyNot is null);
    }

    [Fact]
    public async Task HandleAsync_OldVersion_IsRefused()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var (pepper, tomato) = await TwoAsync(nursery);
        await nursery.Get<ChangeBatch>().HandleAsync(new ChangeBatchRequest(tomato.Id, 1, 2, null, null), nursery.HeadGrower);

        await Assert.ThrowsAsync<ChangedMeanwhile>(() => nursery.Get<ShareTrays>().HandleAsync(
            new ShareTraysRequest([new(pepper.Id, 1, 4), new(tomato.Id, 1, 8)]), nursery.HeadGrower));
    }

    [Fact]
    public async Task RecordEntries_OneOfSharedTraysOffHeat_FoldsTheOthersToo()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var (pepper, tomato) = await TwoAsync(nursery, inDays: 0);
        await nursery.ReserveAsync(pepper, "G1", 1, nursery.Today, nursery.Today.PlusDays(10));
        await nursery.ReserveAsync(pepper, "W1", 1, nursery.Today.PlusDays(10), nursery.Today.PlusDays(30));
        await nursery.Get<ShareTrays>().HandleAsync(
            new ShareTraysRequest([new(pepper.Id, 1, 4), new(tomato.Id, 1, 8)]), nursery.HeadGrower);
        await nursery.SowAsync(pepper);
        await nursery.SowAsync(tomato);
        nursery.Clock.Advance(TimeSpan.FromDays(8));
        await nursery.Get<Application.Tasks.RaiseTasks>().HandleAsync();
        var task = await nursery.TaskAsync(pepper.Id, TaskKind.MoveOffHeat);

        var done = await nursery.RecordAsync(new TaskDone(task.Id.Value));

        Assert.Equal(nursery.Today, (await nursery.StateAsync(pepper.Id)).OffHeatOn);
        Assert.Equal(nursery.Today, (await nursery.StateAsync(tomato.Id)).OffHeatOn);
        Assert.Equal(TaskState.Done, (await nursery.TaskAsync(tomato.Id, TaskKind.MoveOffHeat)).State);
        await nursery.RecordAsync(new EntryUndone(done));
        Assert.Null((await nursery.StateAsync(tomato.Id)).OffHeatOn);
        Assert.Empty(await nursery.Get<RebuildStates>().HandleAsync(nursery.Administrator));
    }

    private static async Task<(PlannedBatch Pepper, PlannedBatch Tomato)> TwoAsync(TestNursery nursery, int inDays = 3) => (
        await nursery.PlanAsync(nursery.Pepper, trays: 1, inDays: inDays),
        await nursery.PlanAsync(nursery.Tomato, trays: 1, inDays: inDays));

    /// <summary>To the sowing day of the later one: they leave the heat two days apart then.</summary>
    private static async Task MoveTogetherAsync(TestNursery nursery, IReadOnlyList<TrayPartner> partners)
    {
        var day = partners.Max(row => row.SowOn);
        foreach (var early in partners.Where(row => row.SowOn != day))
        {
            await nursery.Get<ChangeBatch>().HandleAsync(new ChangeBatchRequest(early.BatchId, early.Version, null, day, null), nursery.HeadGrower);
        }
    }

    /// <summary>35–60 °F: a crop no setpoint suits together with pepper.</summary>
    private static async Task<(Variety Variety, Domain.SeedLots.SeedLot Lot)> SpinachAsync(TestNursery nursery)
    {
        await using var rows = await nursery.DatabaseAsync();
        var crop = await rows.Crops.SingleOrDefaultAsync(row => row.Code == "SP");
        if (crop is null)
        {
            crop = TestCrops.Lettuce();
            (crop.Code, crop.Name, crop.GerminationMaxC, crop.GerminationOptimumC) = ("SP", "Spinach", TestCrops.Celsius(60), TestCrops.Celsius(55));
            rows.Add(crop);
        }

        var variety = new Variety { Id = NewId.Of<Variety>(nursery.Clock), CropId = crop.Id, Code = $"SPI{nursery.At.Site.Code}", Name = "Test spinach" };
        var lot = nursery.NewLot(variety, $"L-{variety.Code}", 0.9m, 10_000);
        rows.AddRange(variety, lot, nursery.Receipt(lot));
        await rows.SaveChangesAsync();
        return (variety, lot);
    }
}
