using System.Globalization;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Batches;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.Ledger;
using Nursery.Domain.Orders;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;

namespace Nursery.Application.Forecasts;

/// <summary>A batch to be sown for the plants another will lack.</summary>
/// <param name="VarietyCode">The same, or one the order line takes instead.</param>
/// <param name="LotCode">A lot of it; null leaves it open.</param>
/// <param name="Trays">1–10,000, of as many cells as the short batch has.</param>
/// <param name="Plants">Ordered plants that wait for the resow from then on, those due last first: 1 to all of the batch.</param>
/// <param name="SowOn">Today or later; null is today.</param>
public sealed record PlanResowRequest(string VarietyCode, string? LotCode, int Trays, int Plants, LocalDate? SowOn = null);

/// <summary>Plans the batch that makes up for a short stand, moves the missing plants of its orders there, and says so in both stories.</summary>
public sealed class PlanResow(IDbContextFactory<NurseryDbContext> databases, PlanBatch planBatch, TimeProvider time)
{
    /// <exception cref="NotFound">No such batch on the actor's site.</exception>
    /// <exception cref="NotSownYet">What is not sown cannot be sown again.</exception>
    /// <exception cref="BatchClosed">It is handed over.</exception>
    /// <exception cref="ResowWaits">One is planned already and not sown.</exception>
    /// <exception cref="InvalidFields">A value outside what is allowed.</exception>
    public Task<PlannedBatch> HandleAsync(Guid batch, PlanResowRequest request, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Plan);
        return databases.RunAsync(database => PlanAsync(database, new Id<Batch>(batch), request, actor, cancellation), cancellation);
    }

    private async Task<PlannedBatch> PlanAsync(
        NurseryDbContext database, Id<Batch> id, PlanResowRequest request, Actor actor, CancellationToken cancellation)
    {
        var batch = (await database.LockBatchesAsync([id], cancellation)).SingleOrDefault(row => row.SiteId == actor.SiteId)
            ?? throw new NotFound("batch", "id", id.Value.ToString());
        await CheckAsync(database, batch, cancellation);
        var site = await database.SiteOfAsync(actor, cancellation);
        var cells = await database.TrayShares.Where(share => share.BatchId == id)
            .Join(database.TraySets, share => share.TraySetId, set => set.Id, (_, set) => set.CellsPerTray).FirstAsync(cancellation);
        var moved = await MoveAsync(database, batch, request.Plants, cancellation);
        await database.SaveChangesAsync(cancellation);
        var planned = await planBatch.PlanAsync(
            database,
            new PlanBatchRequest(request.VarietyCode, request.LotCode, request.Trays, cells, batch.SeedsPerCell, request.SowOn ?? site.Today(time), moved),
            actor, mayBePast: false, cancellation, resownFor: id);
        database.Write(site, actor, time, new ResowPlanned(planned.Code, request.Plants), id);
        await database.SaveChangesAsync(cancellation);
        return planned;
    }

    private static async Task CheckAsync(NurseryDbContext database, Batch batch, CancellationToken cancellation)
    {
        if (batch.State.Stage is BatchStage.HandedOver)
        {
            throw new BatchClosed(batch.Code, "handed over");
        }

        if (batch.State.SownOn is null)
        {
            throw new NotSownYet(batch.Code);
        }

        if (await database.Batches.Where(row => row.ResownFor == batch.Id && row.State.Stage == BatchStage.Planned)
            .Select(row => row.Code).FirstOrDefaultAsync(cancellation) is { } waiting)
        {
            throw new ResowWaits(batch.Code, waiting);
        }
    }

    /// <summary>Takes plants off the batch's orders, those due last first.</summary>
    private static async Task<List<PlannedAllocation>> MoveAsync(NurseryDbContext database, Batch batch, int plants, CancellationToken cancellation)
    {
        var rows = await (
            from allocation in database.Allocations
            join line in database.OrderLines on allocation.OrderLineId equals line.Id
            from delivery in database.OrderDeliveries.Where(row => row.Id == allocation.DeliveryId).DefaultIfEmpty()
            where allocation.BatchId == batch.Id
            select new { allocation, Due = delivery == null ? line.ReadyOn : delivery.ReadyOn }).ToListAsync(cancellation);
        var all = rows.Sum(row => row.allocation.Plants);
        if (plants < 1 || plants > all)
        {
            throw new InvalidFields("plants", plants.ToString(CultureInfo.InvariantCulture), all == 0
                ? $"none: no order waits for batch {batch.Code}"
                : string.Create(CultureInfo.InvariantCulture, $"1–{all}, what is ordered of batch {batch.Code}"));
        }

        var moved = new List<PlannedAllocation>();
        foreach (var row in rows.OrderByDescending(row => row.Due).ThenBy(row => row.allocation.OrderLineId))
        {
            var some = Math.Min(plants - moved.Sum(move => move.Plants), row.allocation.Plants);
            if (some == 0)
            {
                break;
            }

            moved.Add(new PlannedAllocation(row.allocation.OrderLineId.Value, some, row.allocation.DeliveryId?.Value));
            row.allocation.Plants -= some;
            if (row.allocation.Plants == 0)
            {
                database.Allocations.Remove(row.allocation);
            }
        }

        return moved;
    }
}
