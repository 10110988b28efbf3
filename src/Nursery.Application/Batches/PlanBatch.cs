using System.Globalization;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Orders;
using Nursery.Application.Sowings;
using Nursery.Application.Tasks;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.Crops;
using Nursery.Domain.Ledger;
using Nursery.Domain.Orders;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Domain.SeedLots;
using Nursery.Domain.Sites;
using Nursery.Domain.TraySets;

namespace Nursery.Application.Batches;

/// <summary>Plants of the batch for an order line, or for one of its deliveries.</summary>
public sealed record PlannedAllocation(Guid OrderLineId, int Plants, Guid? DeliveryId = null);

/// <summary>A batch to be sown; a tray type, when one is named, has those cells. Trays 1–10,000, cells a tray 1–512, seeds a cell 1–50, sowing day from today to ten years on.</summary>
public sealed record PlanBatchRequest(
    string VarietyCode,
    string? LotCode,
    int Trays,
    int CellsPerTray,
    int SeedsPerCell,
    LocalDate SowOn,
    IReadOnlyList<PlannedAllocation>? Allocations = null,
    string? TrayTypeCode = null);

public sealed record PlannedBatch(
    Guid Id, string Code, string TraySetCode, BatchStage Stage, int Trays, LocalDate SowOn, LocalDate ReadyOn);

public sealed class PlanBatch(IDbContextFactory<NurseryDbContext> databases, TimeProvider time)
{
    /// <exception cref="InvalidFields">A value outside what is allowed.</exception>
    public async Task<PlannedBatch> HandleAsync(
        PlanBatchRequest request, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Plan);
        return await databases.RunAsync(
            database => PlanAsync(database, request, actor, mayBePast: false, cancellation), cancellation);
    }

    /// <param name="heat">Of the site, when it is loaded already.</param>
    /// <param name="mayBePast">For history that is loaded: the sowing day may lie in the past.</param>
    /// <param name="resownFor">The batch whose short stand it makes up for.</param>
    internal async Task<PlannedBatch> PlanAsync(
        NurseryDbContext database, PlanBatchRequest request, Actor actor, bool mayBePast, CancellationToken cancellation,
        Id<Batch>? resownFor = null, PlannedHeat? heat = null)
    {
        var site = await database.SiteOfAsync(actor, cancellation);
        var checks = new FieldChecks()
            .Range("trays", request.Trays, 1, 10_000)
            .Range("cellsPerTray", request.CellsPerTray, 1, 512)
            .Range("seedsPerCell", request.SeedsPerCell, 1, 50);
        CheckSowDay(checks, request.SowOn, site.Today(time), mayBePast);
        var variety = await database.Varieties
            .SingleOrDefaultAsync(row => row.Code == request.VarietyCode && row.RetiredOn == null, cancellation);
        var lot = await FindLotAsync(database, request, cancellation);
        if (variety is null)
        {
            checks.Fail("varietyCode", request.VarietyCode, "the code of a variety in use");
        }
        else if (request.LotCode is not null && lot?.VarietyId != variety.Id)
        {
            checks.Fail("lotCode", request.LotCode, $"the code of a seed lot of {variety.Code}");
        }

        var trayType = request.TrayTypeCode is null
            ? null
            : await database.TrayTypes.SingleOrDefaultAsync(row => row.Code == request.TrayTypeCode && row.RetiredOn == null, cancellation);
        if (request.TrayTypeCode is not null && trayType?.Cells != request.CellsPerTray)
        {
            checks.Fail("trayTypeCode", request.TrayTypeCode, string.Create(
                CultureInfo.InvariantCulture, $"the code of a tray type in use with {request.CellsPerTray} cells"));
        }

        var allocations = await CheckAllocationsAsync(database, request, actor, variety, checks, cancellation);
        checks.Done();

        var crop = await database.Crops.SingleAsync(row => row.Id == variety!.CropId, cancellation);

        // What is loaded from files keeps the ready days its file was made with.
        var daysToReady = mayBePast
            ? crop.DaysToReady
            : PlannedHeat.DaysToReady(crop, (heat ?? await PlannedHeat.LoadAsync(database, site, cancellation)).SpotOf(crop, request.SowOn, null));
        var code = await BatchCodes.NextAsync(database, site.Id, crop.Code, cancellation);
        var batch = new Batch
        {
            Id = NewId.Of<Batch>(time),
            SiteId = site.Id,
            Code = code,
            VarietyId = variety!.Id,
            LotId = lot?.Id,
            ResownFor = resownFor,
            Cells = request.Trays * request.CellsPerTray,
            SeedsPerCell = request.SeedsPerCell,
            SowOn = request.SowOn,
            ReadyOn = request.SowOn.PlusDays(daysToReady),
        };
        var traySet = new TraySet
        {
            Id = NewId.Of<TraySet>(time),
            SiteId = site.Id,
            Code = HumanCode.ForTraySet(code, 1),
            Trays = request.Trays,
            CellsPerTray = request.CellsPerTray,
            TrayTypeId = trayType?.Id,
        };
        database.AddRange(batch, traySet, new TrayShare { TraySetId = traySet.Id, BatchId = batch.Id, Cells = batch.Cells });
        database.Allocations.AddRange(allocations.Select(allocation => new Allocation
        {
            BatchId = batch.Id,
            OrderLineId = new Id<OrderLine>(allocation.OrderLineId),
            Plants = allocation.Plants,
            DeliveryId = allocation.DeliveryId is { } delivery ? new Id<OrderDelivery>(delivery) : null,
        }));
        database.Write(
            site, actor, time, new Planned(request.Trays, request.CellsPerTray, request.SeedsPerCell), batch.Id, traySet.Id);
        await database.SaveChangesAsync(cancellation);
        await TaskWriting.SyncAsync(database, [batch], site.Today(time), time, cancellation);
        return new PlannedBatch(
            batch.Id.Value, code, traySet.Code, batch.State.Stage, request.Trays, batch.SowOn, batch.ReadyOn);
    }

    internal static void CheckSowDay(FieldChecks checks, LocalDate sowOn, LocalDate today, bool mayBePast)
    {
        if ((sowOn < today && !mayBePast) || sowOn > today.PlusYears(10))
        {
            checks.Fail("sowOn", Iso(sowOn), $"{Iso(today)} (today) to {Iso(today.PlusYears(10))}");
        }
    }

    private static async Task<SeedLot?> FindLotAsync(
        NurseryDbContext database, PlanBatchRequest request, CancellationToken cancellation) =>
        request.LotCode is null
            ? null
            : await database.SeedLots.SingleOrDefaultAsync(
                row => row.Code == request.LotCode && row.RetiredOn == null, cancellation);

    private static async Task<IReadOnlyList<PlannedAllocation>> CheckAllocationsAsync(
        NurseryDbContext database,
        PlanBatchRequest request,
        Actor actor,
        Variety? variety,
        FieldChecks checks,
        CancellationToken cancellation)
    {
        var asked = request.Allocations ?? [];
        foreach (var twice in asked.GroupBy(allocation => allocation.OrderLineId).Where(group => group.Count() > 1))
        {
            checks.Fail("allocations.orderLineId", twice.Key.ToString(), "each order line once");
        }

        foreach (var allocation in asked)
        {
            var lineId = new Id<OrderLine>(allocation.OrderLineId);

            // Locked, so that two batches cannot promise the same open plants.
            var line = (await database.OrderLines
                .FromSql($"SELECT * FROM order_lines WHERE id = {lineId.Value} FOR UPDATE")
                .ToListAsync(cancellation)).SingleOrDefault();
            if (line is null || line.SiteId != actor.SiteId)
            {
                checks.Fail("allocations.orderLineId", allocation.OrderLineId.ToString(), "the id of an order line of this site");
            }
            else if (variety is not null && !await TakesAsync(database, line, variety, cancellation))
            {
                checks.Fail("allocations.orderLineId", allocation.OrderLineId.ToString(), $"an order line of {variety.Code}, or one that takes it instead");
            }
            else
            {
                await CheckPlantsAsync(database, allocation, line, checks, cancellation);
            }
        }

        return asked;
    }

    /// <summary>The variety ordered, or one the customer takes instead.</summary>
    private static async Task<bool> TakesAsync(
        NurseryDbContext database, OrderLine line, Variety variety, CancellationToken cancellation) =>
        line.VarietyId == variety.Id
        || await database.OrderSubstitutes.AnyAsync(row => row.OrderLineId == line.Id && row.VarietyId == variety.Id, cancellation);

    private static async Task CheckPlantsAsync(
        NurseryDbContext database, PlannedAllocation allocation, OrderLine line, FieldChecks checks, CancellationToken cancellation)
    {
        var taken = await database.Allocations.Where(row => row.OrderLineId == line.Id).SumAsync(row => row.Plants, cancellation);
        var (open, of) = (line.Plants - taken, "the line's");
        var all = line.Plants;
        if (allocation.DeliveryId is { } id)
        {
            var parts = await LineParts.LoadAsync(database, line.SiteId, cancellation, line.Id);
            var (delivery, left) = parts.OpenOf(line.Id, taken).FirstOrDefault(row => row.Delivery.Id.Value == id);
            if (delivery is null)
            {
                checks.Fail("allocations.deliveryId", id.ToString(), "the id of a delivery of that order line");
                return;
            }

            (open, of, all) = (left, "the delivery's", delivery.Plants);
        }

        if (allocation.Plants < 1 || allocation.Plants > open)
        {
            checks.Fail(
                "allocations.plants",
                allocation.Plants.ToString(CultureInfo.InvariantCulture),
                string.Create(CultureInfo.InvariantCulture, $"1–{open}, what is open of {of} {all} plants"));
        }
    }

    private static string Iso(LocalDate day) => day.ToString("uuuu-MM-dd", CultureInfo.InvariantCulture);
}
