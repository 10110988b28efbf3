using System.Globalization;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Agronomy;
using Nursery.Application.Orders;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Crops;
using Nursery.Domain.Orders;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Domain.SeedLots;

namespace Nursery.Application.Batches;

/// <summary>Order lines to make batches for; null is every line with open plants. A line with deliveries gets a batch for each of
/// them, or one for all of it, ready for the first.</summary>
public sealed record PlanFromOrdersRequest(IReadOnlyList<Guid>? OrderLineIds, bool WholeLines = false);

/// <summary>An order line no batch was made for, and why, in a sentence.</summary>
public sealed record UnplannedLine(Guid OrderLineId, string Order, string VarietyCode, string Why);

public sealed record PlanFromOrdersResult(IReadOnlyList<PlannedBatch> Created, IReadOnlyList<UnplannedLine> NotPlanned);

/// <summary>Makes one batch for each order line or delivery: sow day = ready day − the profile's weeks − the site's margin days;
/// trays from plants, cells, label germination and the plain survival factor.</summary>
public sealed class PlanFromOrders(IDbContextFactory<NurseryDbContext> databases, PlanBatch planBatch, TimeProvider time)
{
    /// <summary>Germination when the variety has no lot yet (from memory; a cautious value for fresh vegetable seed).</summary>
    internal const decimal GerminationWithoutLot = 0.80m;

    public async Task<PlanFromOrdersResult> HandleAsync(
        PlanFromOrdersRequest request, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Plan);
        var lines = await OpenLinesAsync(request, actor, cancellation);
        var created = new List<PlannedBatch>();
        var notPlanned = new List<UnplannedLine>();
        foreach (var line in lines)
        {
            var (batch, why) = await TryPlanAsync(line, actor, cancellation);
            if (batch is not null)
            {
                created.Add(batch);
            }
            else
            {
                notPlanned.Add(new UnplannedLine(line.Line.Id.Value, line.Order, line.Variety.Code, why!));
            }
        }

        return new PlanFromOrdersResult(created, notPlanned);
    }

    private async Task<(PlannedBatch? Batch, string? Why)> TryPlanAsync(
        OpenLine line, Actor actor, CancellationToken cancellation)
    {
        try
        {
            return await databases.RunAsync(database => PlanAsync(database, line, actor, cancellation), cancellation);
        }
        catch (InvalidFields refusal)
        {
            // Too many trays for one batch, more than ten years ahead, or planned by someone else meanwhile: the other lines go on.
            return (null, refusal.Message);
        }
    }

    private async Task<List<OpenLine>> OpenLinesAsync(
        PlanFromOrdersRequest request, Actor actor, CancellationToken cancellation)
    {
        await using var database = await databases.CreateDbContextAsync(cancellation);
        var lines = await (
            from line in database.OrderLines
            join order in database.Orders on line.OrderId equals order.Id
            join variety in database.Varieties on line.VarietyId equals variety.Id
            join crop in database.Crops on variety.CropId equals crop.Id
            where line.SiteId == actor.SiteId
            orderby line.ReadyOn, line.Id
            select new OpenLine(
                line, order.Number, variety, crop,
                line.Plants - database.Allocations.Where(row => row.OrderLineId == line.Id).Sum(row => row.Plants), null))
            .ToListAsync(cancellation);
        var asked = request.OrderLineIds?.ToHashSet();
        if (asked?.Except(lines.Select(line => line.Line.Id.Value)).ToList() is [var unknown, ..])
        {
            throw new InvalidFields("orderLineIds", unknown.ToString(), "the id of an order line of this site");
        }

        var chosen = lines.Where(line => line.OpenPlants > 0 && (asked is null || asked.Contains(line.Line.Id.Value)));
        if (request.WholeLines)
        {
            return [.. chosen];
        }

        var parts = await LineParts.LoadAsync(database, actor.SiteId, cancellation);
        return [.. chosen.SelectMany(line => Split(line, parts))];
    }

    private static IEnumerable<OpenLine> Split(OpenLine line, LineParts parts)
    {
        var open = parts.OpenOf(line.Line.Id, line.Line.Plants - line.OpenPlants);
        return open.Count == 0
            ? [line]
            : open.Where(row => row.Open > 0).Select(row => line with { OpenPlants = row.Open, Delivery = row.Delivery });
    }

    private async Task<(PlannedBatch? Batch, string? Why)> PlanAsync(
        NurseryDbContext database, OpenLine line, Actor actor, CancellationToken cancellation)
    {
        var site = await database.SiteOfAsync(actor, cancellation);
        var today = site.Today(time);
        var sowOn = line.ReadyOn.PlusDays(-line.Crop.DaysToReady - site.MarginDays);
        if (sowOn < today)
        {
            var ready = today.PlusDays(line.Crop.DaysToReady);
            var days = Period.DaysBetween(line.ReadyOn, ready);
            var late = days > 0 ? string.Create(CultureInfo.InvariantCulture, $", {days} days late") : ", without the margin";
            return (null, $"Should have been sown {Day(sowOn)}; sown today it is ready {Day(ready)}{late}");
        }

        var lot = await BestLotAsync(database, line.Variety, cancellation);
        var cells = SowingNeed.Cells(line.OpenPlants, lot?.LabelGermination ?? GerminationWithoutLot, line.Crop.SeedsPerCell);
        var trays = (cells + line.Crop.CellsPerTray - 1) / line.Crop.CellsPerTray;
        var request = new PlanBatchRequest(
            line.Variety.Code, lot?.Code, trays, line.Crop.CellsPerTray, line.Crop.SeedsPerCell, sowOn,
            [new PlannedAllocation(line.Line.Id.Value, line.OpenPlants, line.Delivery?.Id.Value)]);
        return (await planBatch.PlanAsync(database, request, actor, mayBePast: false, cancellation), null);
    }

    private static Task<SeedLot?> BestLotAsync(NurseryDbContext database, Variety variety, CancellationToken cancellation) =>
        database.SeedLots
            .Where(lot => lot.VarietyId == variety.Id && lot.RetiredOn == null && lot.StockSeeds > 0)
            .OrderByDescending(lot => lot.LabelGermination).ThenBy(lot => lot.Code)
            .FirstOrDefaultAsync(cancellation);

    private static string Day(LocalDate day) => day.ToString("d MMMM yyyy", CultureInfo.InvariantCulture);

    private sealed record OpenLine(
        OrderLine Line, string Order, Variety Variety, Crop Crop, int OpenPlants, OrderDelivery? Delivery = null)
    {
        public LocalDate ReadyOn => Delivery?.ReadyOn ?? Line.ReadyOn;
    }
}
