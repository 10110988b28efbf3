using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Rounds;
using Nursery.Application.Tasks;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.Benches;
using Nursery.Domain.Ledger;
using Nursery.Domain.People;
using Nursery.Domain.Sites;
using Nursery.Domain.Tasks;
using Nursery.Domain.TraySets;

namespace Nursery.Application.Scenario;

/// <summary>Lives through the past of a scenario's sown batches, day by day, as if people had reported it then: the same
/// entries, the same fold, the same task rules. So the tasks of the past have their true days; all but routine care also their
/// reasons.</summary>
internal sealed class ScenarioHistory(
    NurseryDbContext database, Site site, IReadOnlyDictionary<string, Actor> actors, IReadOnlyList<Actor> staff, TimeProvider time)
{
    private static readonly LocalTime SowingTime = new(8, 0);
    private static readonly LocalTime LookTime = new(8, 5);
    private static readonly LocalTime CarryingTime = new(8, 20);

    /// <summary>After the morning's looks and moves, before the heat of the day.</summary>
    private static readonly LocalTime CareTime = new(10, 30);

    public async Task LiveAsync(LoadedBatch batch, LocalDate loadDay, CancellationToken cancellation)
    {
        var row = batch.Row;
        await DoTaskAsync(batch, TaskKind.Sow, row.SowOn, SowingTime, ByTurns(row.SowOn), row.Row, "lot", cancellation);
        var carried = Carried(row, loadDay);
        var care = await CareOfAsync(batch, row.SowOn, cancellation);
        for (var day = row.SowOn; day <= loadDay; day = day.PlusDays(1))
        {
            var happened = false;
            foreach (var reservation in carried.Where(reservation => reservation.From == day))
            {
                var moved = new TraysMoved(batch.TraySetCode, new TrayChoice(row.Trays, null), reservation.Bench.Code, reservation.Spaces.First);
                await RecordAsync(moved, day, CarryingTime, ByTurns(day), cancellation);
                happened = true;
            }

            foreach (var told in row.Ledger.Where(entry => entry.On == day).OrderBy(entry => entry.Time))
            {
                await TellAsync(batch, told, cancellation);
                care.Surface = told.Kind == LedgerRowKind.Surface ? new SurfaceMark(LedgerRow.Surfaces[told.What], day) : care.Surface;
                happened = true;
            }

            if (happened)
            {
                var lived = await BatchAsync(batch, cancellation);
                (care.State, care.Care) = (lived.State, await CareGrounds.LoadAsync(database, lived, batch.Row.CellsPerTray, day, cancellation));
            }

            if (day < loadDay)
            {
                await CareAsync(batch, care, day, cancellation);
            }
        }

        await RefoldAsync(batch, loadDay, cancellation);
    }

    /// <summary>The looks and the scouting, when all batches have their past.</summary>
    public Task LivePlacesAsync(SiteFiles files, LocalDate loadDay, CancellationToken cancellation) =>
        new PlaceHistory(database, site, day => Draft(day, LookTime, ByTurns(day)), time).LiveAsync(files, loadDay, cancellation);

    /// <summary>Trays come off the heat when people say so (the plan may be late there) and go to the next place planned;
    /// from then on they were carried on the days of the plan.</summary>
    private static List<ReservationRow> Carried(BatchRow row, LocalDate loadDay)
    {
        var offHeat = row.Ledger.Where(entry => entry.Kind == LedgerRowKind.MoveOffHeat).Select(entry => (LocalDate?)entry.On).Min();
        return
        [
            .. row.Reservations
                .Where(held => held.Bench.Kind != BenchKind.Germination && held.To > offHeat)
                .OrderBy(held => held.From)
                .Skip(1)
                .Where(held => held.From < loadDay),
        ];
    }

    private async Task TellAsync(LoadedBatch batch, LedgerRow told, CancellationToken cancellation)
    {
        var who = actors[told.Who.User];
        if (told.Kind is LedgerRowKind.MoveOffHeat or LedgerRowKind.Thin)
        {
            var task = told.Kind == LedgerRowKind.Thin ? TaskKind.Thin : TaskKind.MoveOffHeat;
            await DoTaskAsync(batch, task, told.On, told.Time, who, told.Row, "kind", cancellation);
            return;
        }

        var bench = told.Kind == LedgerRowKind.Surface ? await BenchOfAsync(batch, told.Row, cancellation) : "";
        await RowRefusals.TellAsync(
            told.Row, "value", () => RecordAsync(told.AsContent(batch.Id.Value, bench), told.On, told.Time, who, cancellation));
    }

    private async Task DoTaskAsync(
        LoadedBatch batch, TaskKind kind, LocalDate day, LocalTime at, Actor who, CsvRow row, string field, CancellationToken cancellation)
    {
        var task = await OpenTaskAsync(batch, kind, LocalDate.MaxIsoValue, cancellation);
        if (task is null)
        {
            row.FailNow(field, $"a batch with an open {kind} task");
        }

        await RowRefusals.TellAsync(row, field, () => RecordAsync(new TaskDone(task.Value.Value), day, at, who, cancellation));
    }

    /// <summary>Hundreds, so each is only written; the batch is folded with the next thing that happened to it.</summary>
    private async Task CareAsync(LoadedBatch batch, RoutineCare care, LocalDate day, CancellationToken cancellation)
    {
        var reported = care.On(day);
        if (reported.Count == 0)
        {
            return;
        }

        var traySet = await TraySetAsync(batch, cancellation);
        foreach (var value in reported)
        {
            database.Ledger.Add(Draft(day, CareTime, ByTurns(day)).Entry(value, batch.Id, traySet));
        }

        await database.SaveChangesAsync(cancellation);
        database.ChangeTracker.Clear();
    }

    private async Task<RoutineCare> CareOfAsync(LoadedBatch batch, LocalDate day, CancellationToken cancellation)
    {
        var crop = await database.Crops.AsNoTracking().SingleAsync(row => row.Id == batch.Row.Variety.CropId, cancellation);
        var sown = await BatchAsync(batch, cancellation);
        return new RoutineCare(crop, batch.Row.Trays, sown)
        {
            Care = await CareGrounds.LoadAsync(database, sown, batch.Row.CellsPerTray, day, cancellation),
        };
    }

    private Task<Batch> BatchAsync(LoadedBatch batch, CancellationToken cancellation) =>
        database.Batches.AsNoTracking().SingleAsync(row => row.Id == batch.Id, cancellation);

    private async Task RefoldAsync(LoadedBatch batch, LocalDate day, CancellationToken cancellation)
    {
        var locked = await database.LockBatchesAsync([batch.Id], cancellation);
        await BatchRefold.FoldAsync(database, locked, [await TraySetAsync(batch, cancellation)], day, time, cancellation);
        database.ChangeTracker.Clear();
    }

    private Task<Id<TraySet>> TraySetAsync(LoadedBatch batch, CancellationToken cancellation) =>
        database.TrayShares.Where(share => share.BatchId == batch.Id).Select(share => share.TraySetId).SingleAsync(cancellation);

    private async Task<Id<RoundTask>?> OpenTaskAsync(
        LoadedBatch batch, TaskKind kind, LocalDate dueBy, CancellationToken cancellation) =>
        await database.Tasks
            .Where(task => task.BatchId == batch.Id && task.Kind == kind && task.State == TaskState.Open && task.DueOn <= dueBy)
            .Select(task => (Id<RoundTask>?)task.Id)
            .SingleOrDefaultAsync(cancellation);

    private async Task<string> BenchOfAsync(LoadedBatch batch, CsvRow row, CancellationToken cancellation)
    {
        var code = await (
            from share in database.TrayShares
            join standing in database.Standings on share.TraySetId equals standing.TraySetId
            join bench in database.Benches on standing.BenchId equals bench.Id
            where share.BatchId == batch.Id
            orderby standing.Id
            select bench.Code).FirstOrDefaultAsync(cancellation);
        if (code is null)
        {
            row.FailNow("batch_row", "a batch that stands on a bench that day");
        }

        return code;
    }

    private async Task<EntryOutcome> RecordAsync(
        EntryContent content, LocalDate day, LocalTime at, Actor who, CancellationToken cancellation)
    {
        var ground = await EntryGround.LoadAsync(database, site.Id, [content], cancellation);
        var affected = await new EntryResolver(database, Draft(day, at, who), ground).ResolveAsync(content, cancellation);
        await database.SaveChangesAsync(cancellation);
        await BatchRefold.FoldAsync(database, affected.Batches, affected.TraySets, day, time, cancellation);

        // Tasks and stock are changed by SQL as well; what is read next must be what is stored.
        database.ChangeTracker.Clear();
        return EntryOutcome.Applied;
    }

    private EntryDraft Draft(LocalDate day, LocalTime at, Actor who) => new(
        site,
        who,
        NewId.Of<LedgerEntry>(time),
        site.Zone.AtLeniently(day + at).ToInstant(),
        Instant.FromDateTimeOffset(time.GetUtcNow()),
        Sent: null);

    private Actor ByTurns(LocalDate day) => staff[day.DayOfYear % staff.Count];
}
