using System.Globalization;
using Microsoft.EntityFrameworkCore;
using NodaTime;
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
using Nursery.Domain.TraySets;

namespace Nursery.Application.Batches;

/// <summary>Some cells of a shared tray for a variety; <paramref name="OrderLineId"/> takes the plants those cells are for.</summary>
public sealed record TrayPart(string VarietyCode, string? LotCode, int Cells, int SeedsPerCell, Guid? OrderLineId = null, int? Plants = null);

/// <summary>Several small varieties in one tray set: 2–24 parts, trays 1–100, cells a tray 1–512.</summary>
public sealed record PlanSharedTraysRequest(int Trays, int CellsPerTray, LocalDate SowOn, IReadOnlyList<TrayPart> Parts);

public sealed record SharedTrays(string TraySetCode, IReadOnlyList<PlannedBatch> Batches);

/// <summary>Plans batches that share trays. They lie on one heat and move off it together, so their bands must meet.</summary>
public sealed class PlanSharedTrays(IDbContextFactory<NurseryDbContext> databases, TimeProvider time)
{
    /// <summary>Crops whose move-off days differ by more than this do not share a tray: the early ones stretch while the late ones
    /// still need heat (common practice, no source).</summary>
    public const int MostDaysApart = 3;

    /// <exception cref="BandsDoNotMeet">No setpoint suits all, or they leave the heat too far apart.</exception>
    public Task<SharedTrays> HandleAsync(PlanSharedTraysRequest request, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Plan);
        return databases.RunAsync(database => PlanAsync(database, request, actor, cancellation), cancellation);
    }

    /// <summary>Why crops do not suit one tray, in a sentence; null when they do.</summary>
    public static string? WhyNot(IReadOnlyCollection<Crop> crops)
    {
        var coldest = crops.MaxBy(crop => crop.GerminationMinC)!;
        var warmest = crops.MinBy(crop => crop.GerminationMaxC)!;
        if (coldest.GerminationMinC > warmest.GerminationMaxC)
        {
            return string.Create(
                CultureInfo.InvariantCulture,
                $"{coldest.Name} needs at least {coldest.GerminationMinC:0.#} °C, {warmest.Name} at most {warmest.GerminationMaxC:0.#} °C");
        }

        var first = crops.MinBy(crop => crop.PlannedHeatDays)!;
        var last = crops.MaxBy(crop => crop.PlannedHeatDays)!;
        if (last.PlannedHeatDays - first.PlannedHeatDays > MostDaysApart)
        {
            return string.Create(
                CultureInfo.InvariantCulture,
                $"{first.Name} leaves the heat after {first.PlannedHeatDays} days, {last.Name} after {last.PlannedHeatDays}: more than {MostDaysApart} days apart");
        }

        return crops.Select(crop => crop.GrowOnBand).Distinct().Count() > 1
            ? $"{string.Join(", ", crops.Select(crop => $"{crop.Name} grows on {crop.GrowOnBand.ToString().ToLowerInvariant()}").Distinct())}"
            : null;
    }

    private async Task<SharedTrays> PlanAsync(
        NurseryDbContext database, PlanSharedTraysRequest request, Actor actor, CancellationToken cancellation)
    {
        var site = await database.SiteOfAsync(actor, cancellation);
        var today = site.Today(time);
        var checks = new FieldChecks()
            .Range("trays", request.Trays, 1, 100)
            .Range("cellsPerTray", request.CellsPerTray, 1, 512)
            .Range("parts", request.Parts.Count, 2, 24);
        if (request.SowOn < today || request.SowOn > today.PlusYears(10))
        {
            checks.Fail("sowOn", request.SowOn.ToString("uuuu-MM-dd", CultureInfo.InvariantCulture), "today to ten years on");
        }

        var cells = request.Parts.Sum(part => part.Cells);
        if (cells > request.Trays * request.CellsPerTray)
        {
            checks.Fail(
                "parts.cells", cells.ToString(CultureInfo.InvariantCulture),
                string.Create(CultureInfo.InvariantCulture, $"together at most {request.Trays * request.CellsPerTray}, the cells of {request.Trays} trays"));
        }

        var parts = await PartsAsync(database, site.Id, request, checks, cancellation);
        checks.Done();
        if (WhyNot([.. parts.Select(part => part.Crop)]) is { } why)
        {
            throw new BandsDoNotMeet(why);
        }

        return await AddAsync(database, site, actor, request, parts, cancellation);
    }

    private async Task<SharedTrays> AddAsync(
        NurseryDbContext database,
        Domain.Sites.Site site,
        Actor actor,
        PlanSharedTraysRequest request,
        List<Part> parts,
        CancellationToken cancellation)
    {
        var batches = new List<Batch>();
        TraySet? traySet = null;
        foreach (var part in parts)
        {
            var code = await BatchCodes.NextAsync(database, site.Id, part.Crop.Code, cancellation);
            traySet ??= new TraySet
            {
                Id = NewId.Of<TraySet>(time),
                SiteId = site.Id,
                Code = HumanCode.ForTraySet(code, 1),
                Trays = request.Trays,
                CellsPerTray = request.CellsPerTray,
            };
            var batch = new Batch
            {
                Id = NewId.Of<Batch>(time),
                SiteId = site.Id,
                Code = code,
                VarietyId = part.Variety.Id,
                LotId = part.Lot?.Id,
                Cells = part.Asked.Cells,
                SeedsPerCell = part.Asked.SeedsPerCell,
                SowOn = request.SowOn,
                ReadyOn = request.SowOn.PlusDays(part.Crop.DaysToReady),
            };
            batches.Add(batch);
            database.AddRange(batch, new TrayShare { TraySetId = traySet.Id, BatchId = batch.Id, Cells = batch.Cells });
            if (part.Asked is { OrderLineId: { } lineId, Plants: { } plants })
            {
                database.Allocations.Add(new Allocation { BatchId = batch.Id, OrderLineId = new Id<OrderLine>(lineId), Plants = plants });
            }

            database.Write(
                site, actor, time, new Planned(request.Trays, request.CellsPerTray, part.Asked.SeedsPerCell), batch.Id, traySet.Id);
        }

        database.Add(traySet!);
        await database.SaveChangesAsync(cancellation);
        await TaskWriting.SyncAsync(database, batches, site.Today(time), time, cancellation);
        return new SharedTrays(
            traySet!.Code,
            [.. batches.Select(batch => new PlannedBatch(
                batch.Id.Value, batch.Code, traySet.Code, batch.State.Stage, request.Trays, batch.SowOn, batch.ReadyOn))]);
    }

    private static async Task<List<Part>> PartsAsync(
        NurseryDbContext database,
        Id<Domain.Sites.Site> siteId,
        PlanSharedTraysRequest request,
        FieldChecks checks,
        CancellationToken cancellation)
    {
        var parts = new List<Part>();
        foreach (var asked in request.Parts)
        {
            checks.Range("parts.cells", asked.Cells, 1, 100 * 512).Range("parts.seedsPerCell", asked.SeedsPerCell, 1, 50);
            var variety = await database.Varieties
                .SingleOrDefaultAsync(row => row.Code == asked.VarietyCode && row.RetiredOn == null, cancellation);
            if (variety is null)
            {
                checks.Fail("parts.varietyCode", asked.VarietyCode, "the code of a variety in use");
                continue;
            }

            var lot = asked.LotCode is null
                ? null
                : await database.SeedLots.SingleOrDefaultAsync(row => row.Code == asked.LotCode && row.RetiredOn == null, cancellation);
            if (asked.LotCode is not null && lot?.VarietyId != variety.Id)
            {
                checks.Fail("parts.lotCode", asked.LotCode, $"the code of a seed lot of {variety.Code}");
            }

            await CheckOrderAsync(database, siteId, asked, variety, checks, cancellation);
            parts.Add(new Part(asked, variety, await database.Crops.SingleAsync(row => row.Id == variety.CropId, cancellation), lot));
        }

        return parts;
    }

    private static async Task CheckOrderAsync(
        NurseryDbContext database,
        Id<Domain.Sites.Site> siteId,
        TrayPart asked,
        Variety variety,
        FieldChecks checks,
        CancellationToken cancellation)
    {
        if (asked.OrderLineId is not { } id)
        {
            return;
        }

        var lineId = new Id<OrderLine>(id);
        var line = (await database.OrderLines
            .FromSql($"SELECT * FROM order_lines WHERE id = {id} FOR UPDATE").ToListAsync(cancellation)).SingleOrDefault();
        var taken = await database.Allocations.Where(row => row.OrderLineId == lineId).SumAsync(row => row.Plants, cancellation);
        if (line is null || line.SiteId != siteId || line.VarietyId != variety.Id)
        {
            checks.Fail("parts.orderLineId", id.ToString(), $"an order line of {variety.Code}");
        }
        else if (asked.Plants is not { } plants || plants < 1 || plants > line.Plants - taken)
        {
            checks.Fail(
                "parts.plants", asked.Plants?.ToString(CultureInfo.InvariantCulture),
                string.Create(CultureInfo.InvariantCulture, $"1–{line.Plants - taken}, what is open of the order line"));
        }
    }

    private sealed record Part(TrayPart Asked, Variety Variety, Crop Crop, Domain.SeedLots.SeedLot? Lot);
}
