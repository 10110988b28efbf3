using System.Text;
using Nursery.Application.Batches;
using Nursery.Application.Setup.Lists;
using Nursery.Domain.Refusals;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Application.Tests.Setup;

public sealed class TrayTypesTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    /// <summary>Ontario ministry of agriculture, plug-tray vegetable transplants: mL a cell by cells a tray.</summary>
    [Theory]
    [InlineData("P24", "24", "171")]
    [InlineData("P38", "38", "106")]
    [InlineData("P50", "50", "66")]
    [InlineData("P72", "72", "43")]
    [InlineData("P128", "128", "23")]
    [InlineData("P200", "200", "11")]
    [InlineData("P288", "288", "7")]
    public async Task StartingSet_CellVolumes_AreThePublishedOnes(string code, string cells, string volume)
    {
        await using var nursery = await TestNursery.OpenAsync(database);

        var row = (await ShowAsync(nursery)).Rows.Single(one => one.Key == code);

        Assert.Equal((cells, volume), (row.Fields["cells"], row.Fields["cell_volume_ml"]));
        Assert.Contains("Ontario", row.Fields["sources"], StringComparison.Ordinal);
    }

    [Fact]
    public async Task PlanBatch_TrayType_MustHaveTheCellsAndIsThenInUse()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var code = $"OWN{nursery.At.Site.Code}";
        var csv = Encoding.UTF8.GetBytes($"code,name,cells,cell_volume_ml,length_mm,width_mm,sources\n{code},Own tray,60,,540,280.5,measured\n");
        Assert.Equal(1, (await nursery.Get<ImportSetupList>().HandleAsync("tray-types", csv, true, nursery.HeadGrower)).Created);
        Assert.Equal(1, (await nursery.Get<ImportSetupList>().HandleAsync("tray-types", csv, false, nursery.HeadGrower)).Created);
        Assert.Equal(1, (await nursery.Get<ImportSetupList>().HandleAsync("tray-types", csv, false, nursery.HeadGrower)).Unchanged);

        await Assert.ThrowsAsync<InvalidFields>(() => PlanAsync(nursery, code, 72));
        await PlanAsync(nursery, code, 60);

        var id = (await ShowAsync(nursery)).Rows.Single(row => row.Key == code).Id;
        Assert.False((await nursery.Get<RetireSetupRow>().HandleAsync("tray-types", id, nursery.HeadGrower)).TakenAway);
        await Assert.ThrowsAsync<InvalidFields>(() => PlanAsync(nursery, code, 60));
        Assert.Equal(code, await nursery.Get<TakeBackSetupRow>().HandleAsync("tray-types", id, nursery.HeadGrower));
        await PlanAsync(nursery, code, 60);
    }

    [Fact]
    public async Task TakeBack_BenchWhosePlaceIsTaken_IsRefusedAndNamed()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var bench = nursery.At.Hardening;
        var batch = await nursery.PlanAsync(nursery.Pepper, trays: 1);
        var held = await nursery.ReserveAsync(batch, bench.Code, 1, nursery.Today, nursery.Today.PlusDays(1));
        nursery.Clock.Advance(TimeSpan.FromDays(3));
        Assert.False((await nursery.Get<RetireSetupRow>().HandleAsync("benches", bench.Id.Value, nursery.HeadGrower)).TakenAway);
        var fields = (await nursery.Get<ShowSetupList>().HandleAsync("benches", nursery.HeadGrower)).Rows.Single(row => row.Key == bench.Code).Fields;
        var over = new Dictionary<string, string>(fields) { ["code"] = "D2" };
        await nursery.Get<SaveSetupRow>().HandleAsync(new SaveRowRequest("benches", null, 0, over), nursery.HeadGrower);

        var refusal = await Assert.ThrowsAsync<InvalidFields>(
            () => nursery.Get<TakeBackSetupRow>().HandleAsync("benches", bench.Id.Value, nursery.HeadGrower));

        Assert.Contains("D2", refusal.Message + string.Concat(refusal.Errors.Select(error => error.Allowed)), StringComparison.Ordinal);
        Assert.Equal(bench.Code, held.BenchCode);
    }

    [Fact]
    public async Task TakeBack_Variety_IsInUseAgain()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var lot = nursery.PepperLot.Id.Value;
        await nursery.Get<RetireSetupRow>().HandleAsync("seed-lots", lot, nursery.HeadGrower);
        await nursery.Get<RetireSetupRow>().HandleAsync("varieties", nursery.Pepper.Id.Value, nursery.HeadGrower);
        await Assert.ThrowsAsync<InvalidFields>(() => nursery.Get<TakeBackSetupRow>().HandleAsync("seed-lots", lot, nursery.HeadGrower));

        await nursery.Get<TakeBackSetupRow>().HandleAsync("varieties", nursery.Pepper.Id.Value, nursery.HeadGrower);
        await nursery.Get<TakeBackSetupRow>().HandleAsync("seed-lots", lot, nursery.HeadGrower);

        Assert.Equal(100_000, await nursery.StockAsync(nursery.PepperLot));
        await nursery.PlanAsync(nursery.Pepper);
    }

    private static Task<SetupListPage> ShowAsync(TestNursery nursery) =>
        nursery.Get<ShowSetupList>().HandleAsync("tray-types", nursery.HeadGrower);

    private static Task<PlannedBatch> PlanAsync(TestNursery nursery, string trayType, int cells) => nursery.Get<PlanBatch>().HandleAsync(
        new PlanBatchRequest(nursery.Pepper.Code, null, 1, cells, 1, nursery.Today, null, trayType), nursery.HeadGrower);
}
