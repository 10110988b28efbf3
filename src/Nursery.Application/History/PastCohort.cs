using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Batches;
using Nursery.Application.Orders;
using Nursery.Application.Reservations;
using Nursery.Application.Rounds;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.Ledger;
using Nursery.Domain.Refusals;
using Nursery.Domain.Tasks;
using Nursery.Past;

namespace Nursery.Application.History;

/// <summary>Lives through the batches of one cohort, from their orders to the last tray handed over, day by day.</summary>
internal sealed class PastCohort(
    PastGround ground, PastSeason season, PastClock clock, ImportOrders orders, PlanBatch planBatch, ReserveSpaces reserve)
{
    private static readonly LocalTime Planning = new(7, 0);

    private readonly ILookup<int, PastEntry> _entriesOf = season.Entries.Where(entry => entry.Batch is not null).ToLookup(entry => entry.Batch!.Value);

    /// <summary>Null when the cohort is there already.</summary>
    public async Task<(int Reported, int NotAsked)?> LiveAsync(
        NurseryDbContext database, IReadOnlyList<PastBatch> batches, CancellationToken cancellation)
    {
        var first = batches[0].Order;
        if (await database.Orders.AnyAsync(order => order.SiteId == ground.Site.Id && order.Number == first, cancellation))
        {
            return null;
        }

        clock.Set(ground.At(batches.Min(batch => batch.SowOn) - 1, Planning));
        var planned = await PlanAsync(database, batches, cancellation);
        var (reported, notAsked) = (0, 0);
        foreach (var together in Shifts(Entries(batches)))
        {
            clock.Set(ground.At(together[^1].Day, Minute(together[^1].Minute + 1)));
            var requests = await RequestsAsync(database, together, planned, cancellation);
            await new EntryWriting(database, ground.Workers[together[0].Worker], clock).WriteAsync(requests, cancellation);
            database.ChangeTracker.Clear();
            reported += requests.Count;
            notAsked += together.Count - requests.Count;
        }

        return (reported, notAsked);
    }

    private async Task<Dictionary<int, PlannedBatch>> PlanAsync(
        NurseryDbContext database, IReadOnlyList<PastBatch> batches, CancellationToken cancellation)
    {
        var rows = batches.Select((batch, index) => new OrderRow(
            index + 2, batch.Order, batch.Customer, batch.Variety, batch.Plants, Day(batch.OrderedOn), [], [])).ToList();
        var imported = await orders.ImportAsync(database, rows, [], dryRun: false, ground.Planner, cancellation);
        if (imported.Errors.Count > 0)
        {
            throw new InvalidFields(imported.Errors);
        }

        var numbers = batches.Select(batch => batch.Order).ToList();
        var lines = await (
            from line in database.OrderLines
            join order in database.Orders on line.OrderId equals order.Id
            where order.SiteId == ground.Site.Id && numbers.Contains(order.Number)
            select new { order.Number, line.Id }).ToDictionaryAsync(row => row.Number, row => row.Id.Value, cancellation);
        var planned = new Dictionary<int, PlannedBatch>();
        foreach (var batch in batches)
        {
            var one = await planBatch.PlanAsync(
                database,
                new PlanBatchRequest(
                    batch.Variety, batch.Lot, batch.Trays, batch.CellsPerTray, batch.SeedsPerCell, Day(batch.SowOn),
                    [new PlannedAllocation(lines[batch.Order], batch.Plants)]),
                ground.Planner, mayBePast: false, cancellation);
            foreach (var place in new[] { batch.Heat, batch.Growing, batch.Hardening })
            {
                await reserve.ReserveAsync(
                    database,
                    new ReserveSpacesRequest(one.TraySetCode, place.Bench, batch.Trays, place.FirstSpace, Day(place.From), Day(place.To)),
                    ground.Planner, cancellation);
            }

            planned.Add(batch.Number, one);
            database.ChangeTracker.Clear();
        }

        return planned;
    }

    private IEnumerable<PastEntry> Entries(IReadOnlyList<PastBatch> batches)
    {
        // Notes about benches go with the cohort that was sown in their weeks, and those of the last weeks with the last.
        var (from, cohort) = (season.Truth.FirstDay, batches[0].Cohort);
        var last = season.Batches.Max(batch => batch.Cohort);
        var benches = season.Entries.Where(entry => entry.Batch is null && Math.Min(last, (entry.Day - from) / SeasonMaker.CohortDays) == cohort);
        return batches.SelectMany(batch => _entriesOf[batch.Number]).Concat(benches)
            .OrderBy(entry => entry.Day).ThenBy(entry => entry.Minute).ThenBy(entry => entry.Batch);
    }

    /// <summary>What one person reported one after the other on a day; what must be done before the rest can be asked for ends a shift.</summary>
    private static IEnumerable<List<PastEntry>> Shifts(IEnumerable<PastEntry> entries)
    {
        var shift = new List<PastEntry>();
        foreach (var entry in entries)
        {
            var open = shift.Count == 0 || (shift[^1].Day == entry.Day && shift[^1].Worker == entry.Worker
                && OfTheLateRound(entry.Work) == OfTheLateRound(shift[^1].Work));
            if (!open)
            {
                yield return shift;
                shift = [];
            }

            shift.Add(entry);
        }

        if (shift.Count > 0)
        {
            yield return shift;
        }
    }

    /// <summary>Only what the morning sowed can be watered, only what it handed over leaves spaces to clear.</summary>
    private static bool OfTheLateRound(PastWork work) => work is PastWork.Water or PastWork.ClearBench;

    private async Task<List<EntryRequest>> RequestsAsync(
        NurseryDbContext database, List<PastEntry> shift, Dictionary<int, PlannedBatch> planned, CancellationToken cancellation)
    {
        var ids = shift.Where(entry => entry.Batch is not null).Select(entry => planned[entry.Batch!.Value].Id).Distinct().ToList();
        var open = await database.Tasks.Where(task => ids.Contains(task.SubjectId) && task.State == TaskState.Open)
            .Select(task => new { task.SubjectId, task.Kind, task.Id }).ToDictionaryAsync(task => (task.SubjectId, task.Kind), task => task.Id, cancellation);
        var requests = new List<EntryRequest>(shift.Count);
        foreach (var entry in shift)
        {
            var batch = entry.Batch is { } number ? planned[number] : null;
            if (Content(entry, batch, TaskIdOf) is { } content)
            {
                var at = ground.At(entry.Day, Minute(entry.Minute)).InZone(ground.Site.Zone).ToOffsetDateTime();
                requests.Add(new EntryRequest(NewId.Of<LedgerEntry>(clock).Value, at, content));
            }

            Guid? TaskIdOf(TaskKind kind) => open.TryGetValue((batch!.Id, kind), out var id) ? id.Value : null;
        }

        return requests;
    }

    /// <summary>As a tablet would report it; null when it is a task and none is open.</summary>
    private static EntryContent? Content(PastEntry entry, PlannedBatch? batch, Func<TaskKind, Guid?> task) => entry.Work switch
    {
        PastWork.Sow => Done(TaskKind.Sow, task),
        PastWork.Water => Done(TaskKind.FirstWatering, task) ?? Done(TaskKind.Water, task),
        PastWork.Hooks => Done(TaskKind.EmergenceCheck, task),
        PastWork.MoveOffHeat => Done(TaskKind.MoveOffHeat, task),
        PastWork.Thin => Done(TaskKind.Thin, task),
        PastWork.HandOver => Done(TaskKind.HandOver, task),
        PastWork.ClearBench => Done(TaskKind.ClearBench, task),
        PastWork.NotUp => task(TaskKind.EmergenceCheck) is { } id ? new TaskNotYet(id, entry.Word) : null,
        PastWork.CountSeedlings => Counted(entry, batch!, CountWhat.Seedlings),
        PastWork.CountBlanks => Counted(entry, batch!, CountWhat.Blanks),
        PastWork.Harden => new TraysMoved(batch!.TraySetCode, new TrayChoice(batch.Trays, null), entry.Bench, entry.Value),
        PastWork.Loss => new PlantsLost(batch!.Id, entry.Value, entry.Word),
        PastWork.Surface => new SurfaceSeen(entry.Bench, Enum.Parse<SurfaceState>(entry.Word, ignoreCase: true)),
        _ => throw new ArgumentOutOfRangeException(nameof(entry), entry.Work, "work without a way to report it"),
    };

    private static TaskDone? Done(TaskKind kind, Func<TaskKind, Guid?> task) => task(kind) is { } id ? new TaskDone(id) : null;

    private static PlantsCounted Counted(PastEntry entry, PlannedBatch batch, CountWhat what) => new(
        batch.Id, what, entry.Value, entry.Trays is { } trays ? new TrayChoice(null, [.. Enumerable.Range(1, trays)]) : null, null, entry.Trays is not null);

    private static LocalTime Minute(int minute) => LocalTime.FromMinutesSinceMidnight(minute);

    private LocalDate Day(int day) => ground.Day.PlusDays(day);
}
