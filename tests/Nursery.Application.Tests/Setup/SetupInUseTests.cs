using Microsoft.EntityFrameworkCore;
using Npgsql;
using Nursery.Application.Setup.Lists;
using Nursery.Domain.Refusals;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Application.Tests.Setup;

/// <summary>The setup under a living nursery: what trays rely on does not go away from under them.</summary>
public sealed class SetupInUseTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    [Fact]
    public async Task Save_BenchSmallerThanEverReserved_NamesTheSpaceAndTheTraySet()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper, trays: 3);
        await nursery.ReserveAsync(batch, "W1", 20, nursery.Today.PlusDays(10), nursery.Today.PlusDays(20));

        var refusal = await Assert.ThrowsAsync<InvalidFields>(() => SaveAsync(nursery, "benches", "W1", "spaces", "21"));

        Assert.Equal($"22 or more: space 22 is reserved by {batch.TraySetCode}", refusal.Errors[0].Allowed);
        await SaveAsync(nursery, "benches", "W1", "spaces", "22");
        await SaveAsync(nursery, "benches", "W1", "spaces", "60");

        // The database holds to it by itself.
        await using var rows = await nursery.DatabaseAsync();
        var failure = await Assert.ThrowsAsync<PostgresException>(() => rows.Database.ExecuteSqlAsync(
            $"UPDATE benches SET capacity = 21 WHERE id = {nursery.At.Warm.Id.Value}"));
        Assert.Equal("ck_reservations_on_bench", failure.ConstraintName);
    }

    [Fact]
    public async Task Retire_BenchAndZoneWithTraysToCome_NameThem()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper, trays: 3);
        await nursery.ReserveAsync(batch, "G1", 1, nursery.Today, nursery.Today.PlusDays(10));
        var retire = nursery.Get<RetireSetupRow>();

        var bench = await Assert.ThrowsAsync<InUse>(async () => await retire.HandleAsync("benches", (await RowAsync(nursery, "benches", "G1")).Id, nursery.HeadGrower));
        var zone = await Assert.ThrowsAsync<InUse>(async () => await retire.HandleAsync("heat-zones", (await RowAsync(nursery, "heat-zones", "Z80")).Id, nursery.HeadGrower));

        Assert.Contains(batch.TraySetCode, bench.Message, StringComparison.Ordinal);
        Assert.Contains(batch.TraySetCode, zone.Message, StringComparison.Ordinal);
        Assert.True((await retire.HandleAsync("heat-zones", (await RowAsync(nursery, "heat-zones", "Z60")).Id, nursery.HeadGrower)).TakenAway);
    }

    [Theory]
    [InlineData("setpoint_c", "10.00", "what seed that lies there accepts")]
    [InlineData("first_space", "4", "heat for the trays that lie there")]
    public async Task Save_ZoneUnderTrays_IsRefusedWithTheirNames(string field, string value, string allowed)
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper, trays: 3);
        await nursery.ReserveAsync(batch, "G1", 1, nursery.Today, nursery.Today.PlusDays(10));
        var row = await RowAsync(nursery, "heat-zones", "Z80");
        var fields = new Dictionary<string, string>(row.Fields) { [field] = value };
        fields["spaces"] = field == "first_space" ? "7" : fields["spaces"];

        var refusal = await Assert.ThrowsAsync<InvalidFields>(() => nursery.Get<SaveSetupRow>().HandleAsync(
            new SaveRowRequest("heat-zones", row.Id, row.Version, fields), nursery.HeadGrower));

        Assert.StartsWith(allowed, refusal.Errors[0].Allowed, StringComparison.Ordinal);
        Assert.Contains(batch.TraySetCode, refusal.Errors[0].Allowed, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Save_LotSownMeanwhile_IsNoConflictAndKeepsItsStock()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var before = await RowAsync(nursery, "seed-lots", nursery.PepperLot.Code);
        var batch = await nursery.PlanAsync(nursery.Pepper, trays: 2);
        await nursery.SowAsync(batch);
        var stock = await nursery.StockAsync(nursery.PepperLot);
        var request = new SaveRowRequest(
            "seed-lots", before.Id, before.Version, new Dictionary<string, string>(before.Fields) { ["supplier"] = "Another seed house" }, before.Fields);

        await nursery.Get<SaveSetupRow>().HandleAsync(request, nursery.HeadGrower);

        Assert.Equal(100_000 - 144, stock);
        Assert.Equal(stock, await nursery.StockAsync(nursery.PepperLot));
        var less = await Assert.ThrowsAsync<InvalidFields>(() => SaveAsync(nursery, "seed-lots", nursery.PepperLot.Code, "seeds", "143"));
        Assert.Equal("144 or more: so many are sown", less.Errors[0].Allowed);
        await SaveAsync(nursery, "seed-lots", nursery.PepperLot.Code, "seeds", "144");
        Assert.Equal(0, await nursery.StockAsync(nursery.PepperLot));
    }

    [Fact]
    public async Task Save_CropCodeWithBatches_Stays()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await nursery.PlanAsync(nursery.Pepper);

        var refusal = await Assert.ThrowsAsync<InvalidFields>(() => SaveAsync(nursery, "crops", "PE", "code", "PX"));

        Assert.Equal("PE: batches are named after it", refusal.Errors[0].Allowed);
    }

    private static async Task<SetupRow> RowAsync(TestNursery nursery, string list, string key) =>
        (await nursery.Get<ShowSetupList>().HandleAsync(list, nursery.HeadGrower)).Rows.Single(row => row.Key == key);

    private static async Task<SetupChange> SaveAsync(TestNursery nursery, string list, string key, string field, string value)
    {
        var row = await RowAsync(nursery, list, key);
        return await nursery.Get<SaveSetupRow>().HandleAsync(
            new SaveRowRequest(list, row.Id, row.Version, new Dictionary<string, string>(row.Fields) { [field] = value }), nursery.HeadGrower);
    }
}
