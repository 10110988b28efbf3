using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Nursery.Application.Tasks;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.Benches;
using Nursery.Domain.Ledger;
using Nursery.Domain.Refusals;
using Nursery.Domain.Tasks;
using Nursery.Domain.TraySets;

namespace Nursery.Application.Rounds;

/// <summary>Turns a reported entry into ledger entries, with everything that follows from it, or refuses it.</summary>
/// <param name="database">Where the entries go; nothing is saved here.</param>
/// <param name="draft">Who, when and where.</param>
/// <param name="ground">What the entry is about, already read and locked.</param>
internal sealed class EntryResolver(NurseryDbContext database, EntryDraft draft, EntryGround ground)
{
    public Task<Affected> ResolveAsync(EntryContent content, CancellationToken cancellation) => content switch
    {
        TaskDone done => DoneAsync(done, cancellation),
        TaskNotYet notYet => Task.FromResult(PutOff(notYet)),
        EntryUndone undone => UndoAsync(undone, cancellation),
        PlantsCounted counted => Task.FromResult(CountUp(counted)),
        PlantsLost lost => Task.FromResult(Lose(lost)),
        SurfaceSeen surface => SurfaceAsync(surface, cancellation),
        TraysMoved moved => MovedAsync(moved, cancellation),
        WorkDone work => WorkAsync(work, cancellation),
        _ => throw new ArgumentOutOfRangeException(nameof(content), content, "a kind of entry without a rule"),
    };

    private async Task<Affected> DoneAsync(TaskDone done, CancellationToken cancellation)
    {
        var task = TaskOf(done.TaskId);
        if (task.BatchId is not { } batchId)
        {
            return AboutPlace(task, new Done(task.Kind, task.Occurrence));
        }

        var (batch, traySet, all) = BatchOf(batchId.Value);
        if (task.Kind == TaskKind.Sow && batch.State.SownOn is null)
        {
            var lot = batch.LotId ?? throw new LotMissing(batch.Code);
            await Sowing.AddAsync(database, draft, batch, traySet, lot, asConsequence: true, cancellation);
        }
        else if (task.Kind == TaskKind.Sow && batch.State.LotId is { } sownLot)
        {
            // The second report stands by itself: if the first is taken back, the batch stays sown.
            var again = new Sown(sownLot, batch.State.SeedsSown, batch.State.CellsSown, batch.SeedsPerCell);
            database.Ledger.Add(draft.Consequence(again, batch.Id, traySet.Id, lot: sownLot));
        }

        // A second person who reports the same task is kept: it is never an error to have done one's work.
        database.Ledger.Add(draft.Entry(new Done(task.Kind, task.Occurrence), batch.Id, traySet.Id));
        if (CarriedTo(task.Kind) is { Length: > 0 } kinds && !await WasCarriedAsync(traySet, kinds, cancellation))
        {
            await CarryToPlannedBenchAsync(batch, traySet, kinds, cancellation);
        }

        return new Affected(all, [traySet.Id]);
    }

    private Affected AboutPlace(RoundTask task, EntryValue value)
    {
        var place = new TaskSubject(task.SiteId, null, task.BenchId, task.HouseId);
        database.Ledger.Add(draft.About(place, value));
        return Affected.Nothing with { Place = place };
    }

    /// <summary>The kinds of bench to which doing a task carries the trays.</summary>
    private static BenchKind[] CarriedTo(TaskKind task) => task switch
    {
        TaskKind.MoveOffHeat => [BenchKind.Growing, BenchKind.Hardening],
        TaskKind.HardenOff => [BenchKind.Hardening],
        _ => [],
    };

    /// <summary>Whether someone said where the trays went. What followed from another's 'done' does not count: it goes when that is undone.</summary>
    private async Task<bool> WasCarriedAsync(TraySet traySet, BenchKind[] kinds, CancellationToken cancellation)
    {
        var ledger = await BatchLedger.LoadAsync(database, [], [traySet.Id], cancellation);
        return LedgerOrder.Effective(ledger.PlacesOf(traySet.Id)).Any(
            entry => entry is { Value: Placement placement, CausedBy: null } && kinds.Contains(placement.BenchKind));
    }

    /// <summary>Taken off the heat or out to harden, trays go where the plan has them next.</summary>
    private async Task CarryToPlannedBenchAsync(Batch batch, TraySet traySet, BenchKind[] kinds, CancellationToken cancellation)
    {
        var plans = await (
            from reservation in database.Reservations
            join bench in database.Benches on reservation.BenchId equals bench.Id
            where reservation.TraySetId == traySet.Id && kinds.Contains(bench.Kind)
            select new { reservation, bench.Kind }).ToListAsync(cancellation);
        foreach (var next in plans.Where(plan => plan.reservation.Days.End >= draft.Day)
            .GroupBy(plan => plan.reservation.Days.Start).OrderBy(group => group.Key).Take(1).SelectMany(group => group))
        {
            var moved = new Moved(
                next.reservation.Trays, next.reservation.BenchId, next.Kind, next.reservation.Spaces.First);
            database.Ledger.Add(draft.Consequence(moved, batch.Id, traySet.Id, next.reservation.BenchId));
        }
    }

    private Affected PutOff(TaskNotYet notYet)
    {
        new FieldChecks().Text("reason", notYet.Reason, 200).Done();
        var reason = notYet.Reason.Trim();

        var task = TaskOf(notYet.TaskId);
        if (task.BatchId is not { } batchId)
        {
            return AboutPlace(task, new NotYet(task.Kind, task.Occurrence, reason));
        }

        var (batch, traySet, all) = BatchOf(batchId.Value);
        database.Ledger.Add(draft.Entry(new NotYet(task.Kind, task.Occurrence, reason), batch.Id, traySet.Id));
        return new Affected(all, [traySet.Id]);
    }

    private async Task<Affected> UndoAsync(EntryUndone undone, CancellationToken cancellation)
    {
        var targetId = new Id<LedgerEntry>(undone.EntryId);
        var target = await database.Ledger.AsNoTracking()
            .SingleOrDefaultAsync(entry => entry.Id == targetId && entry.SiteId == draft.Site.Id, cancellation);
        if (target is
            {
                Value: Undo or Planned or Imported or Reserved or Replanned or SetpointChanged or BatchReplanned or TraysShared
                    or TraysUnshared or ResowPlanned or Receipt or TakenOutOfUse or GivenBack
            })
        {
            throw new InvalidFields("entryId", undone.EntryId.ToString(), "an entry about work: done, not yet, count, surface, loss, moved, worked or sown");
        }

        // Undoing what has not arrived yet is kept and waits for it.
        database.Ledger.Add(draft.Entry(new Undo(targetId), target?.BatchId, target?.TraySetId, target?.BenchId, target?.LotId));
        if (target?.BatchId is { } batchId)
        {
            var batches = await database.LockSharingAsync(batchId, cancellation);
            return new Affected(batches, await TraySetsOfAsync(batchId, cancellation));
        }

        return target switch
        {
            { TraySetId: { } traySetId } => await AllInAsync(traySetId, cancellation),
            { Value: Surface, BenchId: { } bench } => await WateringOnAsync(bench, cancellation),
            { Value: Done or NotYet } => Affected.Nothing with { Place = new(target.SiteId, null, target.BenchId, target.HouseId) },
            _ => await UnplannedWork.FollowersAsync(database, targetId, cancellation),
        };
    }

    private Affected CountUp(PlantsCounted counted)
    {
        var (batch, traySet, all) = BatchOf(counted.BatchId);
        if (batch.State.SownOn is null)
        {
            throw new NotSownYet(batch.Code);
        }

        var trays = counted.Trays?.AsRun(traySet.Trays);
        var most = trays is { } run ? Math.Min(run.Count * traySet.CellsPerTray, batch.Cells) : batch.Cells;
        if (counted.Sample && trays is null && counted.Cells is null)
        {
            throw new InvalidFields("cells", null, "the cells or trays counted, when it is a sample");
        }

        var cells = counted.Cells ?? most;
        var checks = new FieldChecks().Range("cells", cells, 1, most);
        checks.Range("value", counted.Value, 0, Math.Clamp(cells, 1, most) * (counted.What == CountWhat.Seedlings ? batch.SeedsPerCell : 1)).Done();
        var count = new Count(
            counted.What, counted.Value, cells, counted.Sample, batch.SeedsPerCell, counted.Trays?.Numbers);
        database.Ledger.Add(draft.Entry(count, batch.Id, traySet.Id));
        return new Affected(all, [traySet.Id]);
    }

    private Affected Lose(PlantsLost lost)
    {
        var (batch, traySet, all) = BatchOf(lost.BatchId);
        new FieldChecks().Range("plants", lost.Plants, 1, batch.Cells * batch.SeedsPerCell).Text("cause", lost.Cause, 100).Done();
        if (batch.State.SownOn is null)
        {
            throw new NotSownYet(batch.Code);
        }

        database.Ledger.Add(draft.Entry(new Loss(lost.Plants, lost.Cause.Trim()), batch.Id, traySet.Id));
        return new Affected(all, [traySet.Id]);
    }

    private async Task<Affected> SurfaceAsync(SurfaceSeen surface, CancellationToken cancellation)
    {
        var bench = BenchOf(surface.BenchCode);
        database.Ledger.Add(draft.Entry(new Surface(surface.State), bench: bench.Id));
        return await WateringOnAsync(bench.Id, cancellation);
    }

    /// <summary>What was seen on a bench changes when the batches there want water, and nothing else of them.</summary>
    private async Task<Affected> WateringOnAsync(Id<Bench> bench, CancellationToken cancellation)
    {
        var ids = await SurfaceMarks.BatchesOnAsync(database, bench, cancellation);
        return Affected.Nothing with { TasksOnly = await database.LockBatchesAsync(ids, cancellation) };
    }

    private async Task<Affected> WorkAsync(WorkDone work, CancellationToken cancellation)
    {
        UnplannedWork.Check(work);
        var worked = new Worked(work.Task, work.Words?.Trim());
        if (work.BatchId is not { } batchId)
        {
            return await UnplannedWork.OnBenchAsync(database, draft, BenchOf(work.BenchCode!), worked, cancellation);
        }

        var (batch, traySet, all) = BatchOf(batchId);
        if (batch.State.SownOn is null)
        {
            throw new NotSownYet(batch.Code);
        }

        database.Ledger.Add(draft.Entry(worked, batch.Id, traySet.Id));
        return new Affected(all, [traySet.Id]);
    }

    private async Task<Affected> MovedAsync(TraysMoved moved, CancellationToken cancellation)
    {
        var bench = BenchOf(moved.BenchCode);
        var traySet = ground.TraySetOf(moved.TraySetCode)
            ?? throw new NotFound("tray set", "traySetCode", moved.TraySetCode);
        var affected = await AllInAsync(traySet.Id, cancellation);
        var trays = moved.Trays.AsRun(traySet.Trays);
        if (moved.FirstSpace is { } firstSpace)
        {
            var last = bench.Capacity - traySet.SpacesFor(trays.Count) + 1;
            if (firstSpace < 1 || firstSpace > last)
            {
                throw new InvalidFields(
                    "firstSpace",
                    firstSpace.ToString(CultureInfo.InvariantCulture),
                    last < 1
                        ? string.Create(CultureInfo.InvariantCulture, $"none: bench {bench.Code} has {bench.Capacity} spaces for {trays.Count} trays")
                        : string.Create(CultureInfo.InvariantCulture, $"1–{last} for {trays.Count} trays on bench {bench.Code}"));
            }
        }

        if (affected.Batches.All(batch => batch.State.SownOn is null))
        {
            throw new NotSownYet(affected.Batches.First().Code);
        }

        database.Ledger.Add(draft.Entry(
            new Moved(trays, bench.Id, bench.Kind, moved.FirstSpace), traySet: traySet.Id, bench: bench.Id));
        return affected;
    }

    private RoundTask TaskOf(Guid id) => ground.TaskOf(id) ?? throw new NotFound("task", "taskId", id.ToString());

    /// <summary>The batch with its trays, and all batches in them: carrying the trays carries all.</summary>
    private (Batch Batch, TraySet TraySet, IReadOnlyCollection<Batch> All) BatchOf(Guid id) =>
        ground.BatchOf(id) ?? throw new NotFound("batch", "batchId", id.ToString());

    private Task<List<Id<TraySet>>> TraySetsOfAsync(Id<Batch> batch, CancellationToken cancellation) =>
        database.TrayShares.Where(share => share.BatchId == batch).Select(share => share.TraySetId).ToListAsync(cancellation);

    private async Task<Affected> AllInAsync(Id<TraySet> traySet, CancellationToken cancellation)
    {
        var ids = await database.TrayShares.Where(share => share.TraySetId == traySet)
            .Select(share => share.BatchId).ToListAsync(cancellation);
        return new Affected(await database.LockBatchesAsync(ids, cancellation), [traySet]);
    }

    private Bench BenchOf(string code) => ground.BenchOf(code) ?? throw new NotFound("bench", "benchCode", code);
}
