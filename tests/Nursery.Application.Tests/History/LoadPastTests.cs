using Microsoft.EntityFrameworkCore;
using Nursery.Application.Germination;
using Nursery.Application.HeatZones.Learning;
using Nursery.Application.History;
using Nursery.Application.Rounds;
using Nursery.Data;
using Nursery.Domain.Batches;
using Nursery.Domain.People;
using Nursery.Domain.Tasks;
using Nursery.Past;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Application.Tests.History;

public sealed class LoadPastTests(PastFixture past) : IClassFixture<PastFixture>
{
    private PastSeason Season => past.Loaded.Season;

    [Fact]
    public async Task HandleAsync_Demo_LoadsEveryReportOfTheSeason()
    {
        Assert.Equal(Season.Batches.Count, past.Loaded.Batches);
        Assert.True(past.Loaded.Batches >= 250);
        Assert.Equal(Season.Entries.Count, past.Loaded.Entries);
        Assert.Equal(0, past.Loaded.NotAsked);
        await using var database = await past.Nursery.OpenAsync();
        var batches = await PastBatchesAsync(database);
        Assert.Equal(Season.Batches.Count, batches.Count);
        Assert.All(batches.Values, batch => Assert.Equal(BatchStage.HandedOver, batch.State.Stage));
        var days = await database.Ledger.Where(entry => entry.WhoName != "" && entry.Sent != null).Select(entry => entry.Day).ToListAsync();
        Assert.True(NodaTime.Period.DaysBetween(days.Min(), days.Max()) >= 26 * 7);
    }

    /// <summary>The past's truth is beside it: one zone is 5 °C too cold.</summary>
    [Fact]
    public async Task LearnZoneOffsets_OfTheSeason_FindsTheColdZone()
    {
        await past.Nursery.Get<LearnZoneOffsets>().HandleAsync();

        await using var database = await past.Nursery.OpenAsync();
        var zones = await database.HeatZones.AsNoTracking().Where(zone => zone.OffsetC != null).ToListAsync();
        var cold = zones.Single(zone => zone.Code == Season.Truth.ColdZone);
        Assert.Equal(cold.Code, zones.MinBy(zone => zone.OffsetC)!.Code);
        Assert.True(cold.OffsetBatches >= 20, $"{cold.OffsetBatches} batches");
        Assert.Equal(cold.OffsetC, cold.BelievedOffsetC);
        Assert.True(cold.OffsetC < -2.5m, $"{cold.OffsetLowC} to {cold.OffsetHighC}");
        var within = zones.Count(zone => Season.Truth.MediaC[zone.Code].Average() - (double)zone.SetpointC is var truth
            && truth >= (double)zone.OffsetLowC! && truth <= (double)zone.OffsetHighC!);
        Assert.True(within >= zones.Count * 0.75, string.Join("; ", zones.Select(zone =>
            $"{zone.Code} {zone.OffsetBatches}: {zone.OffsetC} ({zone.OffsetLowC} to {zone.OffsetHighC}), truly {Season.Truth.MediaC[zone.Code].Average() - (double)zone.SetpointC:0.0}")));

        // From the same ledger the same again.
        await past.Nursery.Get<LearnZoneOffsets>().HandleAsync();
        Assert.Equal(cold.OffsetC, (await database.HeatZones.AsNoTracking().SingleAsync(zone => zone.Code == cold.Code)).OffsetC);
    }

    [Fact]
    public async Task HandleAsync_Again_AddsNothing()
    {
        await using var database = await past.Nursery.OpenAsync();
        var before = await database.Ledger.CountAsync();

        var again = await past.Nursery.Get<LoadPast>().HandleAsync(LoadPast.DemoSeed, folder: null);

        Assert.Equal((0, 0), (again.Batches, again.Entries));
        Assert.Equal(before, await database.Ledger.CountAsync());
        Assert.Equal(SeasonText.Entries(Season), SeasonText.Entries(again.Season));
    }

    [Fact]
    public async Task HandleAsync_Loaded_LeavesNothingToDoAndNothingStanding()
    {
        await using var database = await past.Nursery.OpenAsync();
        var ids = (await PastBatchesAsync(database)).Values.Select(batch => batch.Id).ToList();
        var subjects = ids.ConvertAll(id => id.Value);

        Assert.Empty(await database.Tasks
            .Where(task => subjects.Contains(task.SubjectId) && task.State == TaskState.Open).ToListAsync());
        Assert.Empty(await (
            from standing in database.Standings
            join share in database.TrayShares on standing.TraySetId equals share.TraySetId
            where ids.Contains(share.BatchId)
            select standing).ToListAsync());
        Assert.All(await database.SeedLots.Where(lot => lot.Code.StartsWith("S-")).ToListAsync(), lot => Assert.Equal(0, lot.StockSeeds));
    }

    [Fact]
    public async Task HandleAsync_Loaded_NoSpaceIsHeldTwice()
    {
        await using var database = await past.Nursery.OpenAsync();
        var held = await database.Reservations.AsNoTracking().ToListAsync();
        var twice = held.GroupBy(row => row.BenchId).SelectMany(bench => bench.SelectMany(one => bench.Where(other =>
            one.Id < other.Id && one.Spaces.Overlaps(other.Spaces) && one.Days.Start <= other.Days.End && other.Days.Start <= one.Days.End)));

        Assert.Empty(twice);
        Assert.True(held.Count >= 3 * Season.Batches.Count);
    }

    [Fact]
    public async Task RebuildStates_WholeHistory_FindsNoDifference()
    {
        await using var database = await past.Nursery.OpenAsync();
        var before = await AllStoredAsync(database);

        Assert.Empty(await past.Nursery.Get<RebuildStates>().HandleAsync(await past.Nursery.ActorAsync(Role.Administrator)));

        Assert.Equal(before, await AllStoredAsync(database));
    }

    [Fact]
    public async Task Germination_OfTheSeason_IsNearTheTruth()
    {
        await using var database = await past.Nursery.OpenAsync();
        var batches = await PastBatchesAsync(database);
        var lastCount = Season.Entries.Where(entry => entry.Work is PastWork.CountSeedlings or PastWork.CountBlanks)
            .GroupBy(entry => entry.Batch!.Value).ToDictionary(group => group.Key, group => group.Last());
        var differences = Season.Batches.Zip(Season.Truth.Batches).Where(row => lastCount[row.First.Number].Trays is null)
            .Select(row => (double)batches[row.First.Number].State.EmergedFraction!.Value - row.Second.FinalFraction).ToList();

        // Where the last count was of all trays. People stop counting before the last seed is up, and plants die before they are counted.
        Assert.True(differences.Count > 200);
        Assert.InRange(differences.Average(), -0.04, 0.005);
        Assert.InRange(differences.Order().ElementAt(differences.Count / 2), -0.03, 0.005);
    }

    [Fact]
    public async Task Germination_BadLot_ShowsItself()
    {
        var actor = await past.Nursery.ActorAsync(Role.HeadGrower);
        var lots = await past.Nursery.Get<GerminationByKey>().HandleAsync(new(GerminationKey.Lot), actor);
        var bad = lots.Single(lot => lot.Key == Season.Truth.BadLot);
        var others = lots.Where(lot => lot.Key != Season.Truth.BadLot && Season.Lots.Any(known => known.Code == lot.Key)).ToList();

        Assert.InRange(bad.Fraction, 0.3m, 0.5m);
        // A lot sown once and counted too early by all its cells looks bad as well.
        Assert.True(others.Count(lot => lot.Fraction <= bad.Fraction) < others.Count / 20, "one lot in twenty came up as badly");
        Assert.True(others.Average(lot => lot.Fraction) > bad.Fraction + 0.25m);
    }

    [Fact]
    public async Task FirstUp_InTheColdZone_IsLaterThanElsewhere()
    {
        await using var database = await past.Nursery.OpenAsync();
        var stored = await PastBatchesAsync(database);
        var later = Season.Batches.GroupBy(batch => batch.Crop)
            .Select(crop => crop.ToLookup(
                batch => batch.Zone == Season.Truth.ColdZone,
                batch => NodaTime.Period.DaysBetween(stored[batch.Number].State.SownOn!.Value, stored[batch.Number].State.FirstUpOn!.Value)))
            .Where(crop => crop[true].Any() && crop[false].Any())
            .SelectMany(crop => crop[true].Select(days => days - crop[false].Average())).ToList();

        Assert.True(later.Count >= 10);
        Assert.True(later.Average() > 0.5, FormattableString.Invariant($"{later.Count} batches in the cold zone were up {later.Average():0.00} days later"));
    }

    [Fact]
    public async Task HandleAsync_NoDemo_IsRefused()
    {
        var database = new TestDatabase();
        await database.InitializeAsync();
        await using (var nursery = await TestNursery.OpenAsync(database))
        {
            await Assert.ThrowsAsync<NoDemoNursery>(() => nursery.Get<LoadPast>().HandleAsync(1, folder: null));
        }

        await database.DisposeAsync();
    }

    /// <summary>By the number of the season; each has one order line, whose order has the batch's number in it.</summary>
    private async Task<Dictionary<int, Batch>> PastBatchesAsync(NurseryDbContext database)
    {
        var numbers = Season.Batches.ToDictionary(batch => batch.Order, batch => batch.Number);
        var rows = await (
            from batch in database.Batches
            join allocation in database.Allocations on batch.Id equals allocation.BatchId
            join line in database.OrderLines on allocation.OrderLineId equals line.Id
            join order in database.Orders on line.OrderId equals order.Id
            where order.Number.StartsWith("S-")
            select new { order.Number, batch }).AsNoTracking().ToListAsync();
        return rows.ToDictionary(row => numbers[row.Number], row => row.batch);
    }

    private static async Task<List<string>> AllStoredAsync(NurseryDbContext database) =>
    [
        .. (await database.Batches.AsNoTracking().ToListAsync()).Select(row => $"{row.Id} {row.State}")
            .Concat((await database.SeedLots.AsNoTracking().ToListAsync()).Select(row => $"{row.Id} {row.StockSeeds}"))
            .Concat((await database.Standings.AsNoTracking().ToListAsync()).Select(row => $"{row.Id} {row.BenchId} {row.Trays} {row.Spaces} {row.Since}"))
            .Concat((await database.Tasks.AsNoTracking().ToListAsync()).Select(row => $"{row.Id} {row.Kind} {row.Occurrence} {row.State} {row.DueOn} {row.DoneOn} {row.DoneBy}"))
            .Order(StringComparer.Ordinal),
    ];
}
