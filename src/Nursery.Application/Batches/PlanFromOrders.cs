using System.Globalization;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Orders;
using Nursery.Application.Sowings;
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

/// <summary>Makes one batch for each order line or delivery: sow day = ready day − days to ready on the heat planned − the site's margin days;
/// seeds a cell and trays the cheapest that give the plants with the chance the site asks for.</summary>
public sealed class PlanFromOrders(IDbContextFactory<NurseryDbContext> databases, PlanBatch planBatch, TimeProvider time)
{
    public async Task<PlanFromOrdersResult> HandleAsync(
        PlanFromOrdersRequest request, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Plan);
        var lines = await OpenLinesAsync(request, actor, cancellation);
        var ground = await GroundAsync(actor, cancellation);
        var created = new List<PlannedBatch>();
        var notPlanned = new List<UnplannedLine>();
        foreach (var line in lines)
        {
            var (batch, why) = await TryPlanAsync(line, ground, actor, cancellation);
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
        OpenLine line, SowingGround ground, Actor actor, CancellationToken cancellation)
    {
        try
        {
            return await databases.RunAsync(database => PlanAsync(database, line, ground, actor, cancellation), cancellation);
        }
        catch (InvalidFields refusal)
        {
            // Too many trays for one batch, more than ten years ahead, or planned by someone else meanwhile: the other lines go on.
            return (null, refusal.Message);
        }
    }

    private async Task<SowingGround> GroundAsync(Actor actor, CancellationToken cancellation)
    {
        await using var database = await databases.CreateDbContextAsync(cancellation);
        var site = await database.SiteOfAsync(actor, cancellation);
        return await SowingGround.LoadAsync(database, site, site.Today(time), cancellation);
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
        NurseryDbContext database, OpenLine line, SowingGround ground, Actor actor, CancellationToken cancellation)
    {
        var site = await database.SiteOfAsync(actor, cancellation);
        var today = site.Today(time);
        var latest = LocalDate.Max(today, line.ReadyOn.PlusDays(-line.Crop.DaysToReady - site.MarginDays));
        var daysToReady = PlannedHeat.DaysToReady(line.Crop, ground.Heat.SpotOf(line.Crop, latest, null));
        var sowOn = line.ReadyOn.PlusDays(-daysToReady - site.MarginDays);
        if (sowOn < today)
        {
            var ready = today.PlusDays(daysToReady);
            var days = Period.DaysBetween(line.ReadyOn, ready);
            var late = days > 0 ? string.Create(CultureInfo.InvariantCulture, $", {days} days late") : ", without the margin";
            return (null, $"Should have been sown {Day(sowOn)}; sown today it is ready {Day(ready)}{late}");
        }

        var checks = new FieldChecks();
        PlanBatch.CheckSowDay(checks, sowOn, today, mayBePast: false);
        checks.Done();
        var lot = await BestLotAsync(database, line.Variety, cancellation);
        var sowing = ground.Of(new SowingWish(line.Crop, lot, line.OpenPlants, line.Crop.CellsPerTray, sowOn));
        if (sowing?.Best(sowing.All()) is not { } best)
        {
            return (null, $"No number of cells gives {Plants(line)} with the chance asked for: the seed is too poor, or no heat zone suits {line.Crop.Name}");
        }

        var request = new PlanBatchRequest(
            line.Variety.Code, lot?.Code, best.Trays, line.Crop.CellsPerTray, best.SeedsPerCell, sowOn,
            [new PlannedAllocation(line.Line.Id.Value, line.OpenPlants, line.Delivery?.Id.Value)]);
        return (await planBatch.PlanAsync(database, request, actor, mayBePast: false, cancellation, heat: ground.Heat), null);
    }

    private static string Plants(OpenLine line) => string.Create(CultureInfo.InvariantCulture, $"{line.OpenPlants:N0} plants");

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
