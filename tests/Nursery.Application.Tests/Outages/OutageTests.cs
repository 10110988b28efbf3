using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Benches;
using Nursery.Application.Outages;
using Nursery.Application.Reservations;
using Nursery.Domain;
using Nursery.Domain.Benches;
using Nursery.Domain.Ledger;
using Nursery.Domain.Refusals;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Application.Tests.Outages;

/// <summary>On Monday, 2 March 2026.</summary>
public sealed class OutageTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    [Fact]
    public async Task TakeOutOfUse_BenchWithTrays_SaysWhichStandThereAndIsInTheLedger()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var stays = await nursery.PlanAsync(nursery.Pepper, trays: 8);
        await nursery.ReserveAsync(stays, "W1", 1, nursery.Today, nursery.Today.PlusDays(30));
        var gone = await nursery.PlanAsync(nursery.Pepper, trays: 8);
        await nursery.ReserveAsync(gone, "W1", 20, nursery.Today, nursery.Today.PlusDays(2));

        var outage = await TakeAsync(nursery, "W1", null, 3, 10, "  leg broken ");

        Assert.Equal(("H1", "W1", null, nursery.Today.PlusDays(3), nursery.Today.PlusDays(10), "leg broken", nursery.HeadGrower.Name),
            (outage.House, outage.BenchCode, outage.ZoneCode, outage.From, outage.To, outage.Why, outage.Who));
        Assert.Equal([stays.TraySetCode], outage.TraySets);
        Assert.Equal(outage.Id, Assert.Single((await nursery.Get<ListOutages>().HandleAsync(new Paging(), nursery.Staff)).Items).Id);
        await using var rows = await nursery.DatabaseAsync();
        var entry = await rows.Ledger.SingleAsync(row => row.Kind == LedgerKind.TakenOutOfUse && row.SiteId == nursery.At.Site.Id);
        Assert.Equal(new TakenOutOfUse(nursery.At.Warm.Id, null, "2026-03-05", "2026-03-12", "leg broken"), entry.Value);
        Assert.Equal(nursery.At.Warm.Id, entry.BenchId);
    }

    [Fact]
    public async Task Reserve_OnDaysOutOfUse_IsRefusedWithUntilWhenAndWhy()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await TakeAsync(nursery, "W1", null, 3, 10, "leg broken");
        var batch = await nursery.PlanAsync(nursery.Pepper, trays: 4);

        foreach (var first in new int?[] { 1, null })
        {
            var refusal = await Assert.ThrowsAsync<NotInUse>(() => nursery.ReserveAsync(batch, "W1", first, nursery.Today, nursery.Today.PlusDays(4)));
            Assert.Equal("Bench W1 is out of use from 5 March 2026 until 12 March 2026: leg broken", refusal.Message);
            Assert.Equal(("W1", "2026-03-12", "leg broken"), (refusal.Facts["bench"], refusal.Facts["until"], refusal.Facts["why"]));
        }

        // The days on both sides are free.
        await nursery.ReserveAsync(batch, "W1", 1, nursery.Today, nursery.Today.PlusDays(3));
        await nursery.ReserveAsync(batch, "W1", 1, nursery.Today.PlusDays(10), nursery.Today.PlusDays(20));
    }

    [Fact]
    public async Task Reserve_ZoneOutOfUse_TheOtherZonesOfTheBenchAreTaken()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await TakeAsync(nursery, null, "Z80", 0, 10, null);
        var batch = await nursery.PlanAsync(nursery.Tomato, trays: 4);

        Assert.Equal("Heat zone Z80 of bench G1 is out of use from 2 March 2026 until 12 March 2026", (await Assert.ThrowsAsync<NotInUse>(
            () => nursery.ReserveAsync(batch, "G1", 7, nursery.Today, nursery.Today.PlusDays(4)))).Message);
        var held = await nursery.ReserveAsync(batch, "G1", null, nursery.Today, nursery.Today.PlusDays(4));
        Assert.Equal(11, held.FirstSpace);
    }

    [Fact]
    public async Task ShowHouses_OnADayOutOfUse_SaysSoAndTheSpacesAreNotFree()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await TakeAsync(nursery, null, "Z80", 3, 10, "mat cold");

        Assert.Equal((14, 1), await ShownAsync(3));
        Assert.Equal((24, 0), await ShownAsync(10));

        async Task<(int Free, int Outages)> ShownAsync(int day)
        {
            var houses = await nursery.Get<ShowHouses>().HandleAsync(nursery.Today.PlusDays(day), nursery.Staff);
            var bench = houses.Houses.SelectMany(house => house.Benches).Single(bench => bench.Code == "G1");
            Assert.All(bench.OutOfUse, outage => Assert.Equal(new HouseOutage(1, 10, "Heat zone Z80 of bench G1 is out of use from 5 March 2026 until 12 March 2026: mat cold"), outage));
            return (bench.Free, bench.OutOfUse.Count);
        }
    }

    [Fact]
    public async Task FirstFit_BenchOutOfUse_PlacesNothingThere()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await TakeAsync(nursery, null, "Z80", 0, 60, null);
        await TakeAsync(nursery, "W1", null, 0, 90, null);
        await nursery.PlanAsync(nursery.Pepper, trays: 4);
        await nursery.PlanAsync(nursery.Lettuce, trays: 4);

        var outcome = await nursery.Get<PlaceByFirstFit>().HandleAsync(nursery.HeadGrower);

        Assert.Equal(1, outcome.Placed);
        Assert.StartsWith("No warm bench", Assert.Single(outcome.NotPlaced).Why, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Move_ToABenchOutOfUseOrBackToIt_IsRefused()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper, trays: 4);
        var held = await nursery.ReserveAsync(batch, "W1", 1, nursery.Today, nursery.Today.PlusDays(30));
        var moved = await nursery.Get<MoveTrays>().HandleAsync(new(held.Id, "C1", null), nursery.HeadGrower);
        await TakeAsync(nursery, "W1", null, 0, 10, null);

        await Assert.ThrowsAsync<NotInUse>(() => nursery.Get<UndoReplan>().HandleAsync(moved.ChangeId!.Value, nursery.HeadGrower));
        await using var rows = await nursery.DatabaseAsync();
        var now = await rows.Reservations.SingleAsync(row => row.SiteId == nursery.At.Site.Id);
        await Assert.ThrowsAsync<NotInUse>(() => nursery.Get<MoveTrays>().HandleAsync(new(now.Id.Value, "W1", null), nursery.HeadGrower));
    }

    [Fact]
    public async Task TakeOutOfUse_Twice_IsRefusedAndByTheDatabaseToo()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await TakeAsync(nursery, "W1", null, 3, 10, null);

        await Assert.ThrowsAsync<NotInUse>(() => TakeAsync(nursery, "W1", null, 9, 12, null));
        await TakeAsync(nursery, "W1", null, 10, 12, null);
        await TakeAsync(nursery, "G1", null, 3, 10, null);
        await TakeAsync(nursery, null, "Z80", 3, 10, null);

        await using var rows = await nursery.DatabaseAsync();
        rows.Outages.Add(new Outage
        {
            Id = NewId.Of<Outage>(nursery.Clock),
            SiteId = nursery.At.Site.Id,
            BenchId = nursery.At.Heat.Id,
            ZoneId = nursery.At.Zones[0].Id,
            Days = new DateInterval(nursery.Today.PlusDays(9), nursery.Today.PlusDays(9)),
            WhoName = "somebody",
        });
        var failure = await Assert.ThrowsAsync<DbUpdateException>(() => rows.SaveChangesAsync());
        Assert.Contains("ex_outages_once", failure.InnerException!.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task TakeOutOfUse_WrongFields_AreNamedWithWhatIsAllowed()
    {
        await using var nursery = await TestNursery.OpenAsync(database);

        var refusal = await Assert.ThrowsAsync<InvalidFields>(() => TakeAsync(nursery, "roof", null, -1, -1, new string('x', 201)));
        Assert.Equal(["benchCode", "from", "to", "why"], refusal.Errors.Select(error => error.Field));
        Assert.Equal("2026-03-02 (today) to 2028-02-27: past days never change", refusal.Errors[1].Allowed);
        Assert.Equal("zoneCode", Assert.Single((await Assert.ThrowsAsync<InvalidFields>(() => TakeAsync(nursery, null, "roof", 0, 1, null))).Errors).Field);
        Assert.Equal("benchCode", Assert.Single((await Assert.ThrowsAsync<InvalidFields>(() => TakeAsync(nursery, "W1", "Z80", 0, 1, null))).Errors).Field);
    }

    [Fact]
    public async Task GiveBack_Early_TheDaysAreFreeAgain()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var outage = await TakeAsync(nursery, "W1", null, 0, 10, null);
        var batch = await nursery.PlanAsync(nursery.Pepper, trays: 4);
        nursery.Clock.Advance(TimeSpan.FromDays(2));

        var wrong = await Assert.ThrowsAsync<InvalidFields>(() => nursery.Get<GiveBack>().HandleAsync(outage.Id, outage.To, nursery.HeadGrower));
        Assert.Equal("2026-03-04 (today) to 2026-03-11", Assert.Single(wrong.Errors).Allowed);
        var given = await nursery.Get<GiveBack>().HandleAsync(outage.Id, null, nursery.HeadGrower);

        Assert.Equal((outage.From, nursery.Today), (given.From, given.To));
        await nursery.ReserveAsync(batch, "W1", 1, nursery.Today, nursery.Today.PlusDays(4));
        Assert.Empty((await nursery.Get<ListOutages>().HandleAsync(new Paging(), nursery.Staff)).Items);
        await Assert.ThrowsAsync<PastIsFixed>(() => nursery.Get<GiveBack>().HandleAsync(outage.Id, null, nursery.HeadGrower));
        await using var rows = await nursery.DatabaseAsync();
        var entry = await rows.Ledger.SingleAsync(row => row.Kind == LedgerKind.GivenBack && row.SiteId == nursery.At.Site.Id);
        Assert.Equal(new GivenBack(nursery.At.Warm.Id, null, "2026-03-02", "2026-03-04", "2026-03-12"), entry.Value);
    }

    [Fact]
    public async Task GiveBack_BeforeItBegan_IsAsIfItHadNeverBeen()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var outage = await TakeAsync(nursery, null, "Z70", 5, 10, null);

        await nursery.Get<GiveBack>().HandleAsync(outage.Id, null, nursery.HeadGrower);

        await Assert.ThrowsAsync<NotFound>(() => nursery.Get<GiveBack>().HandleAsync(outage.Id, null, nursery.HeadGrower));
    }

    private static Task<OutageItem> TakeAsync(TestNursery nursery, string? bench, string? zone, int from, int to, string? why) =>
        nursery.Get<TakeOutOfUse>().HandleAsync(
            new TakeOutOfUseRequest(bench, zone, nursery.Today.PlusDays(from), nursery.Today.PlusDays(to), why), nursery.HeadGrower);
}
