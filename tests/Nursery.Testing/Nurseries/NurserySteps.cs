using System.Text;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Batches;
using Nursery.Application.Orders;
using Nursery.Application.Reservations;
using Nursery.Application.Rounds;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.Crops;
using Nursery.Domain.People;
using Nursery.Domain.SeedLots;
using Nursery.Domain.Tasks;
using Xunit;

namespace Nursery.Testing.Nurseries;

/// <summary>Steps tests take again and again, each through the use case people would use.</summary>
public static class NurserySteps
{
    /// <summary>The file of an import: the header and these lines.</summary>
    public static byte[] OrderFile(params string[] lines) =>
        Encoding.UTF8.GetBytes("order,customer,variety,plants,ready_on\n" + string.Join('\n', lines) + "\n");

    public static Task<ImportResult> ImportAsync(this TestNursery nursery, params string[] lines) =>
        nursery.Get<ImportOrders>().HandleAsync(OrderFile(lines), false, nursery.HeadGrower);

    /// <summary>A batch of a variety with its lot, sown on a day from today.</summary>
    public static Task<PlannedBatch> PlanAsync(
        this TestNursery nursery, Variety variety, int trays = 2, int inDays = 0, SeedLot? lot = null, int cells = 72, int seeds = 1)
    {
        var planned = lot ?? new[] { nursery.PepperLot, nursery.LettuceLot, nursery.TomatoLot }.Single(row => row.VarietyId == variety.Id);
        var request = new PlanBatchRequest(variety.Code, planned.Code, trays, cells, seeds, nursery.Today.PlusDays(inDays));
        return nursery.Get<PlanBatch>().HandleAsync(request, nursery.HeadGrower);
    }

    public static Task<ReservedSpaces> ReserveAsync(
        this TestNursery nursery, PlannedBatch batch, string bench, int? firstSpace, LocalDate from, LocalDate to) =>
        nursery.Get<ReserveSpaces>().HandleAsync(
            new ReserveSpacesRequest(batch.TraySetCode, bench, batch.Trays, firstSpace, from, to), nursery.HeadGrower);

    public static Task<EntryOutcome> SowAsync(this TestNursery nursery, PlannedBatch batch, Guid? entryId = null) =>
        nursery.Get<SowBatch>().HandleAsync(
            batch.Id, new SowBatchRequest(entryId ?? nursery.NewEntryId(), null, nursery.Today), nursery.Staff);

    public static Guid NewEntryId(this TestNursery nursery) => Guid.CreateVersion7(nursery.Clock.GetUtcNow());

    public static EntryRequest Entry(this TestNursery nursery, EntryContent content, Guid? id = null, DateTimeOffset? at = null) => new(
        id ?? nursery.NewEntryId(), OffsetDateTime.FromDateTimeOffset(at ?? nursery.Clock.GetUtcNow()), content);

    /// <summary>Records one entry, whatever becomes of it.</summary>
    public static async Task<EntryResult> SendAsync(this TestNursery nursery, EntryRequest entry, Actor? actor = null) =>
        Assert.Single(await nursery.Get<RecordEntries>().HandleAsync([entry], actor ?? nursery.Staff));

    /// <summary>Records one entry that must be applied; gives its id.</summary>
    public static async Task<Guid> RecordAsync(
        this TestNursery nursery, EntryContent content, Actor? actor = null, Guid? id = null, DateTimeOffset? at = null)
    {
        var result = await nursery.SendAsync(nursery.Entry(content, id, at), actor);
        Assert.True(result.Outcome == EntryOutcome.Applied, $"{result.Outcome}: {result.Problem?.Message}");
        return result.Id;
    }

    public static async Task<RoundTask> TaskAsync(this TestNursery nursery, Guid batch, TaskKind kind, int occurrence = 1)
    {
        var batchId = new Id<Batch>(batch);
        await using var database = await nursery.DatabaseAsync();
        return await database.Tasks.AsNoTracking()
            .SingleAsync(task => task.BatchId == batchId && task.Kind == kind && task.Occurrence == occurrence);
    }

    /// <summary>Reports a task of a batch done; gives the entry's id.</summary>
    public static async Task<Guid> DoAsync(this TestNursery nursery, Guid batch, TaskKind kind, int occurrence = 1) =>
        await nursery.RecordAsync(new TaskDone((await nursery.TaskAsync(batch, kind, occurrence)).Id.Value));

    public static async Task<List<RoundTask>> TasksAsync(this TestNursery nursery)
    {
        await using var database = await nursery.DatabaseAsync();
        return await database.Tasks.AsNoTracking().Where(task => task.SiteId == nursery.At.Site.Id)
            .OrderBy(task => task.SubjectId).ThenBy(task => task.Kind).ThenBy(task => task.Occurrence).ToListAsync();
    }

    public static async Task<BatchState> StateAsync(this TestNursery nursery, Guid batch)
    {
        var batchId = new Id<Batch>(batch);
        await using var database = await nursery.DatabaseAsync();
        return (await database.Batches.AsNoTracking().SingleAsync(row => row.Id == batchId)).State;
    }

    public static async Task<int> StockAsync(this TestNursery nursery, SeedLot lot)
    {
        await using var database = await nursery.DatabaseAsync();
        return await database.SeedLots.Where(row => row.Id == lot.Id).Select(row => row.StockSeeds).SingleAsync();
    }

    /// <summary>Where the trays of the site stand, in order of bench code and tray.</summary>
    public static async Task<IReadOnlyList<(string Bench, SpaceRun Trays, SpaceRun? Spaces)>> StandingAsync(this TestNursery nursery)
    {
        await using var database = await nursery.DatabaseAsync();
        var rows = await (
            from standing in database.Standings
            join bench in database.Benches on standing.BenchId equals bench.Id
            where standing.SiteId == nursery.At.Site.Id
            select new { bench.Code, standing.Trays, standing.Spaces }).ToListAsync();
        return
        [
            .. rows.Select(row => (row.Code, row.Trays, row.Spaces)).OrderBy(row => row.Code, StringComparer.Ordinal)
                .ThenBy(row => row.Trays.First).ThenBy(row => row.Trays.Count).ThenBy(row => row.Spaces?.First),
        ];
    }

    public static async Task<int> LedgerCountAsync(this TestNursery nursery)
    {
        await using var database = await nursery.DatabaseAsync();
        return await database.Ledger.CountAsync(entry => entry.SiteId == nursery.At.Site.Id);
    }
}
