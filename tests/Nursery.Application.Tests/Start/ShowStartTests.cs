using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Rounds;
using Nursery.Application.Start;
using Nursery.Application.Tasks;
using Nursery.Domain.Ledger;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Application.Tests.Start;

public sealed class ShowStartTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    [Fact]
    public async Task Show_LinesAroundTheHorizon_TellsThoseToBeSownWithin14Days()
    {
        await using var nursery = await TestNursery.OpenAsync(database);

        // Pepper takes 56 days and the site keeps 7: sown 63 days before.
        await nursery.ImportAsync(
            Line(nursery, "late", 62), Line(nursery, "last", 63 + 14), Line(nursery, "beyond", 63 + 15));

        var start = await nursery.Get<ShowStart>().HandleAsync(nursery.HeadGrower);

        Assert.Equal(["late", "last"], start.Unplanned.Select(line => line.Order));
        Assert.Equal(nursery.Today.PlusDays(-1), start.Unplanned[0].SowOn);
        Assert.Equal(100, start.Unplanned[0].OpenPlants);
    }

    [Fact]
    public async Task Show_ZoneReadsWhatNoPepperBears_TellsBoth_WhileTheReadingIsFresh()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper);
        await nursery.ReserveAsync(batch, "G1", 1, nursery.Today, nursery.Today.PlusDays(12));
        await nursery.SowAsync(batch);
        await ReadAsync(nursery, 20);
        Assert.Empty((await nursery.Get<ShowStart>().HandleAsync(nursery.HeadGrower)).ZonesOutOfBand);

        await ReadAsync(nursery, 12);

        var zone = Assert.Single((await nursery.Get<ShowStart>().HandleAsync(nursery.HeadGrower)).ZonesOutOfBand);
        Assert.Equal(("Z80", "G1", 12m, "Pepper"), (zone.ZoneCode, zone.BenchCode, zone.ReadsC, zone.CropName));
        Assert.True(zone.MinC > 12);
        Assert.Empty((await nursery.Get<ShowStart>().HandleAsync(nursery.Staff)).ZonesOutOfBand);
        nursery.Clock.Advance(TimeSpan.FromHours(25));
        Assert.Empty((await nursery.Get<ShowStart>().HandleAsync(nursery.HeadGrower)).ZonesOutOfBand);
    }

    [Fact]
    public async Task Show_FarFewerUpThanShouldBe_AndTraysPastTheirReservation_AreTold()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var (poor, good) = (await nursery.PlanAsync(nursery.Pepper), await nursery.PlanAsync(nursery.Pepper));
        await nursery.ReserveAsync(poor, "G1", 1, nursery.Today, nursery.Today.PlusDays(17));
        await nursery.ReserveAsync(good, "G1", 3, nursery.Today, nursery.Today.PlusDays(40));
        await nursery.SowAsync(poor);
        await nursery.SowAsync(good);
        nursery.Clock.Advance(TimeSpan.FromDays(16));
        await nursery.RecordAsync(new PlantsCounted(poor.Id, CountWhat.CellsUp, 9, null, null, false));
        await nursery.RecordAsync(new PlantsCounted(good.Id, CountWhat.CellsUp, 130, null, null, false));

        var start = await nursery.Get<ShowStart>().HandleAsync(nursery.HeadGrower);

        var astray = Assert.Single(start.CountsAstray);
        Assert.Equal((poor.Code, 9m / 144), (astray.BatchCode, astray.Up));
        Assert.True(astray.Low > 0.2);
        Assert.Contains(astray.How.Inputs, input => (input.Name, input.Value) == ("days since sowing", "16"));
        Assert.Empty(start.Overstays);

        nursery.Clock.Advance(TimeSpan.FromDays(1));
        var over = Assert.Single((await nursery.Get<ShowStart>().HandleAsync(nursery.HeadGrower)).Overstays);
        Assert.Equal((poor.Code, "G1", nursery.Today.PlusDays(-1)), (over.BatchCode, over.BenchCode, over.Until));
    }

    [Fact]
    public async Task Show_TheRound_IsToldHouseByHouse()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper);
        await nursery.ReserveAsync(batch, "G1", 1, nursery.Today, nursery.Today.PlusDays(12));
        await nursery.SowAsync(batch);

        var round = Assert.Single((await nursery.Get<ShowStart>().HandleAsync(nursery.Staff)).Round);

        Assert.True(round.Done >= 1 && round.Total > round.Done && round.MinutesLeft > 0, $"{round}");
        Assert.NotNull(round.House);
    }

    private static async Task ReadAsync(TestNursery nursery, decimal celsius)
    {
        await using var rows = await nursery.DatabaseAsync();
        var at = Instant.FromDateTimeOffset(nursery.Clock.GetUtcNow());
        await rows.HeatZones.Where(zone => zone.SiteId == nursery.At.Site.Id && zone.Code == "Z80")
            .ExecuteUpdateAsync(zone => zone.SetProperty(row => row.ReadsC, celsius).SetProperty(row => row.ReadAt, at));
    }

    [Fact]
    public async Task Show_TraysPastTheirHeatDays_TellsThemFromTheDayAfter()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper);
        await nursery.ReserveAsync(batch, "G1", 1, nursery.Today, nursery.Today.PlusDays(12));
        await nursery.SowAsync(batch);

        // Planned on heat: 8 days to emergence and 2 more.
        nursery.Clock.Advance(Duration.FromDays(10).ToTimeSpan());
        Assert.Empty((await nursery.Get<ShowStart>().HandleAsync(nursery.HeadGrower)).LongOnHeat);
        nursery.Clock.Advance(Duration.FromDays(1).ToTimeSpan());
        var start = await nursery.Get<ShowStart>().HandleAsync(nursery.HeadGrower);

        var row = Assert.Single(start.LongOnHeat);
        Assert.Equal((batch.Code, "G1", nursery.Today.PlusDays(-1)), (row.BatchCode, row.BenchCode, row.PlannedOff));
        Assert.Empty((await nursery.Get<ShowStart>().HandleAsync(nursery.Staff)).LongOnHeat);
    }

    [Fact]
    public async Task Show_OpenTasks_CountsThemAndTellsTheLateOnes()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper);
        await nursery.PlanAsync(nursery.Lettuce, inDays: 1);
        nursery.Clock.Advance(Duration.FromDays(1).ToTimeSpan());
        await nursery.Get<RaiseTasks>().HandleAsync();

        var start = await nursery.Get<ShowStart>().HandleAsync(nursery.Staff);

        Assert.Equal(2, start.Open);
        Assert.Equal(batch.Code, Assert.Single(start.Late).BatchCode);
    }

    [Fact]
    public async Task Show_CountedSowings_GivesTheRateOfTheLastFourWeeks()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await CountAsync(nursery, 36);
        nursery.Clock.Advance(Duration.FromDays(28).ToTimeSpan());
        await CountAsync(nursery, 108);

        var both = (await nursery.Get<ShowStart>().HandleAsync(nursery.Manager)).Recent!;
        nursery.Clock.Advance(Duration.FromDays(1).ToTimeSpan());
        var one = (await nursery.Get<ShowStart>().HandleAsync(nursery.Manager)).Recent!;

        // 144 of 288 seeds, then 108 of 144.
        Assert.Equal((2, 288L, 0.5m), (both.Batches, both.Seeds, both.Fraction));
        Assert.Equal((1, 144L, 0.75m), (one.Batches, one.Seeds, one.Fraction));
    }

    [Fact]
    public async Task Show_BatchWithoutSpaces_IsToldUntilItHasThem()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper, inDays: 3);
        var other = await nursery.PlanAsync(nursery.Lettuce, inDays: 1);

        var before = await nursery.Get<ShowStart>().HandleAsync(nursery.HeadGrower);
        await nursery.ReserveAsync(batch, "G1", 1, nursery.Today, nursery.Today.PlusDays(5));
        var after = await nursery.Get<ShowStart>().HandleAsync(nursery.HeadGrower);

        Assert.Equal([other.Code, batch.Code], before.Unplaced.Select(row => row.Code));
        Assert.Equal([other.Code], after.Unplaced.Select(row => row.Code));
    }

    private static string Line(TestNursery nursery, string order, int readyInDays) =>
        $"{order},Farm,{nursery.Pepper.Code},100,{nursery.Today.PlusDays(readyInDays):uuuu-MM-dd}";

    private static async Task CountAsync(TestNursery nursery, int seedlings)
    {
        var batch = await nursery.PlanAsync(nursery.Pepper);
        await nursery.SowAsync(batch);
        await nursery.RecordAsync(new PlantsCounted(batch.Id, CountWhat.Seedlings, seedlings, null, null, false));
    }
}
