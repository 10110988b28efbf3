using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Data;
using Nursery.Domain.People;

namespace Nursery.Application.Orders;

/// <summary>A part of an order line with a day of its own.</summary>
public sealed record LineDelivery(Guid Id, LocalDate ReadyOn, int Plants, int OpenPlants);

/// <summary>An order line as people and other systems see it. Without deliveries all plants are wanted on its day.</summary>
public sealed record OrderLineItem(
    Guid Id,
    string Order,
    string Customer,
    string VarietyCode,
    string VarietyName,
    string CropCode,
    string CropName,
    int Plants,
    LocalDate ReadyOn,
    int AllocatedPlants,
    int Version,
    IReadOnlyList<LineDelivery> Deliveries,
    IReadOnlyList<LineSubstitute> Substitutes);

public sealed class ListOrderLines(IDbContextFactory<NurseryDbContext> databases)
{
    public async Task<Page<OrderLineItem>> HandleAsync(Paging paging, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Read);
        await using var database = await databases.CreateDbContextAsync(cancellation);
        var after = paging.AfterId();
        var lines = database.OrderLines.Where(line => line.SiteId == actor.SiteId);
        if (after is { } id)
        {
            var position = new Domain.Id<Domain.Orders.OrderLine>(id);
            lines = lines.Where(line => line.Id > position);
        }

        var query =
            from line in lines
            join order in database.Orders on line.OrderId equals order.Id
            join customer in database.Customers on order.CustomerId equals customer.Id
            join variety in database.Varieties on line.VarietyId equals variety.Id
            join crop in database.Crops on variety.CropId equals crop.Id
            orderby line.Id
            select new OrderLineItem(
                line.Id.Value, order.Number, customer.Name, variety.Code, variety.Name, crop.Code, crop.Name, line.Plants, line.ReadyOn,
                database.Allocations.Where(allocation => allocation.OrderLineId == line.Id).Sum(allocation => allocation.Plants),
                line.Version, Array.Empty<LineDelivery>(), Array.Empty<LineSubstitute>());
        var rows = paging.Limit == int.MaxValue
            ? await query.ToListAsync(cancellation)
            : await query.Take(paging.Limit + 1).ToListAsync(cancellation);
        var parts = await LineParts.LoadAsync(database, actor.SiteId, cancellation);
        rows = rows.ConvertAll(row => WithParts(row, parts));
        return Paging.ById(rows, paging.Limit, row => row.Id);
    }

    private static OrderLineItem WithParts(OrderLineItem item, LineParts parts)
    {
        var id = new Domain.Id<Domain.Orders.OrderLine>(item.Id);
        return item with
        {
            Deliveries = [.. parts.OpenOf(id, item.AllocatedPlants).Select(row => new LineDelivery(row.Delivery.Id.Value, row.Delivery.ReadyOn, row.Delivery.Plants, row.Open))],
            Substitutes = [.. parts.Substitutes[id]],
        };
    }
}
