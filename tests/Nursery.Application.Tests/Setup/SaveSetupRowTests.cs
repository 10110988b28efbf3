using Microsoft.EntityFrameworkCore;
using Nursery.Application.Houses;
using Nursery.Application.Setup;
using Nursery.Application.Setup.Lists;
using Nursery.Domain.Ledger;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Xunit;

namespace Nursery.Application.Tests.Setup;

public sealed class SaveSetupRowTests : IAsyncLifetime
{
    private EmptyNursery _nursery = null!;

    public async Task InitializeAsync()
    {
        _nursery = await EmptyNursery.OpenAsync();
        await AddHouseAsync("H1");
    }

    public async Task DisposeAsync() => await _nursery.DisposeAsync();

    [Fact]
    public async Task AddHouseOfBenches_SixBenches_ProposesSpacesAndHeatsTheFirst()
    {
        var benches = (await _nursery.Get<ShowSetupList>().HandleAsync("benches", _nursery.Administrator)).Rows;

        Assert.Equal(["germination", "germination", "growing", "growing", "growing", "growing"], benches.Select(row => row.Fields["kind"]));
        Assert.All(benches, row => Assert.Equal("54", row.Fields["spaces"]));
        Assert.Equal("26.67", (await _nursery.RowAsync("heat-zones", "Z-H1-B")).Fields["setpoint_c"]);
        var state = await _nursery.Get<ShowSetup>().HandleAsync(_nursery.Administrator);
        Assert.Equal([SetupStep.Variety, SetupStep.SeedLot, SetupStep.OrderLine], state.Missing);
    }

    [Fact]
    public async Task AddHouseOfBenches_TooMany_SaysHowManyFit()
    {
        var refusal = await Assert.ThrowsAsync<InvalidFields>(() => AddHouseAsync("H2", benches: 9));

        Assert.Equal("at most 6: 3 along the house and 2 across it, with aisles of 60 cm", refusal.Errors[0].Allowed);
    }

    [Fact]
    public async Task HandleAsync_TwoEditors_SecondIsToldBothValues()
    {
        var row = await _nursery.RowAsync("houses", "H1");
        await _nursery.SaveAsync("houses", row, "name", "Theirs");

        var refusal = await Assert.ThrowsAsync<ChangedMeanwhile>(() => _nursery.SaveAsync("houses", row, "name", "Yours"));

        Assert.Equal([new TwoValues("name", "Yours", "Theirs")], refusal.Values);
        Assert.Equal("Theirs", (await _nursery.RowAsync("houses", "H1")).Fields["name"]);
        await _nursery.SaveAsync("houses", row with { Version = refusal.Version }, "name", "Yours");
        Assert.Equal("Yours", (await _nursery.RowAsync("houses", "H1")).Fields["name"]);
    }

    [Fact]
    public async Task HandleAsync_TwoEditorsAtOnce_OneOfThemIsRefused()
    {
        var row = await _nursery.RowAsync("houses", "H1");

        var saves = Enumerable.Range(0, 6).Select(number => Task.Run(() => _nursery.SaveAsync("houses", row, "name", $"Name {number}"))).ToList();
        await Task.WhenAll(saves.Select(save => save.ContinueWith(_ => { }, TaskScheduler.Default)));

        Assert.Equal(1, saves.Count(save => save.IsCompletedSuccessfully));
        Assert.All(saves.Where(save => save.IsFaulted), save => Assert.IsType<ChangedMeanwhile>(save.Exception!.InnerException));
    }

    [Fact]
    public async Task HandleAsync_Change_IsInTheLedgerWithBothValues()
    {
        await _nursery.SaveAsync("houses", await _nursery.RowAsync("houses", "H1"), "name", "North house");

        await using var database = await _nursery.DatabaseAsync();
        var entries = await database.Ledger.Where(entry => entry.Kind == LedgerKind.Changed).ToListAsync();
        var change = entries.Select(entry => (Entry: entry, Value: (Changed)entry.Value)).Single(pair => pair.Value.Before?.ContainsKey("name") == true);
        Assert.Equal(("house", "H1", "House 1", "North house", "Ada Thistlewick"), (
            change.Value.What, change.Value.Code, change.Value.Before!["name"], change.Value.After!["name"], change.Entry.WhoName));
    }

    [Theory]
    [InlineData("benches", "H1-A", "x_cm", "700", "a bench over no other: this one lies over bench H1-B, H1-C")]
    [InlineData("benches", "H1-A", "y_cm", "-5", "a whole number, 0–100000")]
    [InlineData("benches", "H1-A", "y_cm", "800", "a bench inside house H1")]
    [InlineData("benches", "H1-A", "spaces", "53", "enough for its heat zones: Z-H1-A ends on space 54")]
    [InlineData("heat-zones", "Z-H1-A", "first_space", "2", "a run that ends on bench H1-A (space 54) and overlaps no other zone")]
    [InlineData("heat-zones", "Z-H1-A", "bench", "H1-B", "a run that ends on bench H1-B (space 54) and overlaps no other zone; this one overlaps Z-H1-B")]
    [InlineData("houses", "H1", "length_cm", "1000", "room for every bench: H1-B, H1-C, H1-E, H1-F would reach beyond the walls")]
    [InlineData("people", "ada", "role", "staff", "administrator: nobody else is one")]
    [InlineData("site", "TW", "time_zone", "Chicago", "a zone of the IANA time zone database, such as America/Chicago")]
    public async Task HandleAsync_WhatCannotBe_IsRefusedWithNames(string list, string key, string field, string value, string allowed)
    {
        var row = await _nursery.RowAsync(list, key);

        var refusal = await Assert.ThrowsAsync<InvalidFields>(() => _nursery.SaveAsync(list, row, field, value));

        Assert.Contains(refusal.Errors, error => error.Allowed == allowed);
        Assert.Equal(row.Fields, (await _nursery.RowAsync(list, key)).Fields);
    }

    [Fact]
    public async Task Retire_HouseWithBenches_NamesThemAndUnusedBenchIsTakenAway()
    {
        var retire = _nursery.Get<RetireSetupRow>();
        var house = await _nursery.RowAsync("houses", "H1");
        var refusal = await Assert.ThrowsAsync<InUse>(() => retire.HandleAsync("houses", house.Id, _nursery.Administrator));
        Assert.Contains("H1-A, H1-B", refusal.Message, StringComparison.Ordinal);

        var bench = await _nursery.RowAsync("benches", "H1-F");
        Assert.True((await retire.HandleAsync("benches", bench.Id, _nursery.Administrator)).TakenAway);

        var heated = await _nursery.RowAsync("benches", "H1-A");
        Assert.False((await retire.HandleAsync("benches", heated.Id, _nursery.Administrator)).TakenAway);
        Assert.NotNull((await _nursery.RowAsync("benches", "H1-A")).RetiredOn);
        Assert.DoesNotContain("H1-A,", await _nursery.ExportAsync("benches"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task HandleAsync_WithoutTheRight_IsRefused()
    {
        var grower = _nursery.Administrator with { Rights = RoleRights.Of(Role.HeadGrower) };
        var staff = _nursery.Administrator with { Rights = RoleRights.Of(Role.Staff) };

        await Assert.ThrowsAsync<NotAllowed>(() => _nursery.Get<ShowSetupList>().HandleAsync("people", grower));
        await Assert.ThrowsAsync<NotAllowed>(() => _nursery.Get<ShowSetupList>().HandleAsync("houses", staff));
        await Assert.ThrowsAsync<NotAllowed>(() => _nursery.Get<SaveSetupRow>().HandleAsync(
            new SaveRowRequest("houses", null, 0, new Dictionary<string, string>()), staff));
    }

    private Task AddHouseAsync(string code, int benches = 6) => _nursery.Get<AddHouseOfBenches>().HandleAsync(
        new HouseOfBenchesRequest(code, "House 1", 1800, 900 - 390, benches, 500, 165, 60, 2, 26.67m, 2), _nursery.Administrator);
}
