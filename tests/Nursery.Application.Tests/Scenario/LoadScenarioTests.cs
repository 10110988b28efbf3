using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Germination;
using Nursery.Application.Rounds;
using Nursery.Application.Scenario;
using Nursery.Data.People;
using Nursery.Domain.Batches;
using Nursery.Domain.Ledger;
using Nursery.Domain.People;
using Nursery.Domain.Tasks;
using Xunit;
using Xunit.Abstractions;
using static Nursery.Application.Tests.Scenario.DemoFiles;

namespace Nursery.Application.Tests.Scenario;

public sealed class LoadScenarioTests(DemoNurseryFixture fixture, ITestOutputHelper output) : IClassFixture<DemoNurseryFixture>
{
    private static readonly LocalDate LoadDay = new(2026, 4, 15);

    private DemoNursery Nursery => fixture.Nursery;

    [Fact]
    public async Task HandleAsync_DemoFolder_StoresWhatTheFilesCount()
    {
        await using var database = await Nursery.OpenAsync();

        Assert.Equal(Count("houses.csv"), await database.Houses.CountAsync());
        Assert.Equal(Count("benches.csv"), await database.Benches.CountAsync());
        Assert.Equal(Count("heat_zones.csv"), await database.HeatZones.CountAsync());
        Assert.Equal(Count("crops.csv"), await database.Crops.CountAsync());
        Assert.Equal(Count("varieties.csv"), await database.Varieties.CountAsync());
        Assert.Equal(Count("seed_lots.csv"), await database.SeedLots.CountAsync());
        Assert.Equal(Count("orders.csv"), await database.OrderLines.CountAsync());
        Assert.Equal(Read("orders.csv").Select(line => line["order"]).Distinct().Count(), await database.Orders.CountAsync());
        Assert.Equal(Count("batches.csv"), await database.Batches.CountAsync());
        Assert.Equal(SownBatches().Count, await database.Batches.CountAsync(batch => batch.State.SownOn != null));
        Assert.Equal(Count("reservations.csv"), await database.Reservations.CountAsync());
        Assert.True((await database.Sites.SingleAsync()).IsDemo);
        var told = Nursery.Result;
        Assert.Equal(
            (Count("houses.csv"), Count("benches.csv"), Count("heat_zones.csv"), Count("crops.csv"), Count("varieties.csv"),
                Count("seed_lots.csv"), Count("orders.csv"), Count("batches.csv"), SownBatches().Count),
            (told.Houses, told.Benches, told.HeatZones, told.Crops, told.Varieties, told.SeedLots, told.OrderLines, told.Batches, told.SownBatches));
    }

    [Fact]
    public async Task HandleAsync_SownBatches_StandWhereTheirStoryPutThem()
    {
        await using var database = await Nursery.OpenAsync();
        var rows = await (
            from batch in database.Batches
            join variety in database.Varieties on batch.VarietyId equals variety.Id
            join share in database.TrayShares on batch.Id equals share.BatchId
            join standing in database.Standings on share.TraySetId equals standing.TraySetId
            join bench in database.Benches on standing.BenchId equals bench.Id
            select new { Variety = variety.Code, Bench = bench.Code, batch.State, standing.Spaces }).ToListAsync();
        foreach (var row in rows)
        {
            output.WriteLine($"{row.Variety} {row.Bench} {row.Spaces} {row.State.Stage} up {row.State.EmergedFraction:0.00} watered {row.State.WateredOn}");
        }

        var byVariety = rows.ToDictionary(row => row.Variety, row => (row.Bench, row.State.Stage, row.Spaces!.Value.First));

        Assert.Equal(SownBatches().Count, rows.Count);
        Assert.Equal(("2B", BatchStage.GrowingOn, 1), byVariety["ON-COPP"]);
        Assert.Equal(("1D", BatchStage.GrowingOn, 7), byVariety["PE-LANT"]);

        // Carried to the hardening bench by the plan five days ago.
        Assert.Equal(("2D", BatchStage.HardeningOff, 1), byVariety["CU-RILL"]);

        // Planned to leave the heat on the load day and not carried yet.
        Assert.Equal(("1B", BatchStage.Emerging, 1), byVariety["EG-LOOM"]);

        // Nobody has looked yet.
        Assert.Equal(("1A", BatchStage.Sown, 4), byVariety["TO-SLATE"]);
    }

    [Fact]
    public async Task HandleAsync_LoadDay_HasARoundAGrowerKnows()
    {
        var tasks = await Nursery.Get<ListTasks>().HandleAsync(null, await Nursery.ActorAsync(Role.Staff));
        foreach (var task in tasks)
        {
            output.WriteLine($"{task.DueOn} {task.Kind} {task.Subject} {task.BenchCode} {task.State}: {task.Why}");
        }

        Assert.All(tasks, task => Assert.Equal(TaskState.Open, task.State));
        Assert.InRange(tasks.Count, 15, 60);
        Assert.InRange(tasks.Count(task => task.DueOn < LoadDay), 1, 5);
        Assert.All(tasks, task => Assert.True(task.DueOn >= LoadDay.PlusDays(-3), $"{task.Kind} of {task.Subject} is due since {task.DueOn}"));
        Assert.Equal(
            Read("batches.csv").Count(batch => batch["sown"] == "no" && Whole(batch, "sow_on") <= 0),
            tasks.Count(task => task.Kind == TaskKind.Sow));
        Assert.Contains(tasks, task => task.Kind == TaskKind.MoveOffHeat);
        Assert.Contains(tasks, task => task.Kind == TaskKind.Thin);
        Assert.Contains(tasks, task => task.Kind == TaskKind.EmergenceCheck);
        Assert.Contains(tasks, task => task.Kind == TaskKind.Water);
    }

    [Fact]
    public async Task HandleAsync_PastWaterings_AreDoneOnTheirDay()
    {
        await using var database = await Nursery.OpenAsync();
        var waterings = await (
            from task in database.Tasks
            join batch in database.Batches on task.BatchId equals batch.Id
            where task.Kind == TaskKind.Water && task.State == TaskState.Done
            select new { task.DueOn, task.DoneOn, batch.State.OffHeatOn }).ToListAsync();

        Assert.True(waterings.Count > 100, $"{waterings.Count} waterings");
        Assert.All(waterings, task => Assert.True(task.DoneOn < LoadDay));

        // Off the heat trays want water daily instead of every other day: that morning the due day moves to yesterday. And a bench seen
        // wet that morning puts off what was still on the list, though some of it was watered anyway.
        var wetOn = Read("ledger.csv").Where(row => row["what"] == "wet").Select(row => (LocalDate?)LoadDay.PlusDays(Whole(row, "on"))).ToHashSet();
        Assert.All(
            waterings.Where(task => task.DoneOn != task.DueOn),
            task => Assert.True(
                (task.OffHeatOn == task.DoneOn && task.DueOn.PlusDays(1) == task.DoneOn)
                    || (wetOn.Contains(task.DoneOn) && task.DueOn.PlusDays(-1) == task.DoneOn),
                $"due {task.DueOn}, done {task.DoneOn}, off heat {task.OffHeatOn}"));
    }

    [Fact]
    public async Task HandleAsync_LotsOfSownBatches_HaveWhatIsLeft()
    {
        await using var database = await Nursery.OpenAsync();
        var lots = await database.SeedLots.ToDictionaryAsync(lot => lot.Id, lot => lot.StockSeeds);
        var entries = await database.Ledger.AsNoTracking()
            .Where(entry => entry.Kind == LedgerKind.Receipt || entry.Kind == LedgerKind.Sown).ToListAsync();

        Assert.Equal(Count("seed_lots.csv"), entries.Count(entry => entry.Value is Receipt));
        Assert.Equal(SownBatches().Count, entries.Count(entry => entry.Value is Sown));
        foreach (var lot in entries.GroupBy(entry => entry.LotId!.Value))
        {
            var received = lot.Select(entry => entry.Value).OfType<Receipt>().Sum(receipt => receipt.Seeds);
            var sown = lot.Select(entry => entry.Value).OfType<Sown>().Sum(value => value.Seeds);
            Assert.Equal(received - sown, lots[lot.Key]);
        }
    }

    [Fact]
    public async Task HandleAsync_Batches_PromiseNoMoreThanIsOrdered()
    {
        await using var database = await Nursery.OpenAsync();
        var lines = await (
            from line in database.OrderLines
            join allocation in database.Allocations on line.Id equals allocation.OrderLineId
            group allocation.Plants by new { line.Id, line.Plants } into taken
            select new { taken.Key.Plants, Promised = taken.Sum() }).ToListAsync();

        // Trays were sown for whole lines, so whole lines are promised.
        Assert.NotEmpty(lines);
        Assert.All(lines, line => Assert.Equal(line.Plants, line.Promised));
        Assert.Equal(Count("batches.csv"), await database.Allocations.Select(row => row.BatchId).Distinct().CountAsync());
    }

    [Fact]
    public async Task GerminationByKey_Crop_GivesBelievableRates()
    {
        var items = await Nursery.Get<GerminationByKey>().HandleAsync(new(GerminationKey.Crop), await Nursery.ActorAsync(Role.Manager));
        foreach (var item in items)
        {
            output.WriteLine($"{item.Name}: {item.Batches} batches, {item.Emerged:0} of {item.Seeds}, {item.Fraction:0.00} ± {item.FractionSpread:0.00}");
        }

        var counted = Read("ledger.csv").Where(row => row["kind"] == "count").Select(row => Whole(row, "batch_row")).ToHashSet();
        var cropOf = Read("varieties.csv").ToDictionary(variety => variety["code"], variety => variety["crop"]);
        Assert.Equal(
            Read("batches.csv").Where((_, at) => counted.Contains(at + 1)).Select(batch => cropOf[batch["variety"]]).Distinct().Order(),
            items.Select(item => item.Key).Order());
        Assert.All(items, item => Assert.InRange(item.Fraction, 0.01m, 1m));

        // Of what is past its emergence most came up; what was sown this week is still coming.
        Assert.All(
            items.Where(item => item.Key is "BR" or "CA" or "CF" or "CU" or "KA" or "LE" or "ON" or "TO"),
            item => Assert.InRange(item.Fraction, 0.5m, 1m));
        Assert.NotNull(items.Single(item => item.Key == "PE").FractionSpread);
    }

    [Fact]
    public async Task RebuildStates_AfterLoad_FindsNoDifference() =>
        Assert.Empty(await Nursery.Get<RebuildStates>().HandleAsync(await Nursery.ActorAsync(Role.Administrator)));

    [Fact]
    public async Task HandleAsync_SignIns_OpenTheDoor()
    {
        await using var database = await Nursery.OpenAsync();
        var hasher = Nursery.Get<IPasswordHasher<Person>>();

        Assert.Equal(Enum.GetValues<Role>(), Nursery.Result.SignIns.Select(signIn => signIn.Role).Order());
        Assert.Equal(5, await database.Users.CountAsync());
        foreach (var signIn in Nursery.Result.SignIns)
        {
            var name = Nursery.Get<ILookupNormalizer>().NormalizeName(signIn.User);
            var person = await database.Users.SingleAsync(user => user.NormalizedUserName == name);
            Assert.Equal(PasswordVerificationResult.Success, hasher.VerifyHashedPassword(person, person.PasswordHash!, signIn.Password));
            Assert.True(person.LockoutEnabled);
            Assert.NotNull(person.SecurityStamp);
        }

        // 20 signs of an alphabet of 31 are 99 bits.
        Assert.All(Nursery.Result.SignIns, signIn => Assert.Matches("^([a-hjkmnp-z2-9]{5}-){3}[a-hjkmnp-z2-9]{5}$", signIn.Password));
        Assert.Equal(4, Nursery.Result.SignIns.Select(signIn => signIn.Password).Distinct().Count());
    }

    [Fact]
    public async Task HandleAsync_ApiKey_HasEveryScope()
    {
        await using var database = await Nursery.OpenAsync();
        var key = await database.ApiKeys.SingleAsync();

        Assert.Equal(Enum.GetValues<Right>(), key.Scopes);
        Assert.Equal(System.Security.Cryptography.SHA256.HashData(System.Text.Encoding.UTF8.GetBytes(Nursery.Result.ApiKey)), key.SecretHash);
    }

    [Fact]
    public async Task HandleAsync_SecondLoad_IsRefusedInASentence()
    {
        Assert.False(await Nursery.Get<LoadScenario>().IsEmptyAsync());
        var refusal = await Assert.ThrowsAsync<DatabaseNotEmpty>(() => Nursery.Get<LoadScenario>().HandleAsync(DemoNursery.Folder));

        Assert.Contains("Kestrel Beck Nursery", refusal.Message, StringComparison.Ordinal);
        await using var database = await Nursery.OpenAsync();
        Assert.Equal(Count("batches.csv"), await database.Batches.CountAsync());
    }
}
