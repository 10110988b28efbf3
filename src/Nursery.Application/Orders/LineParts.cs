using Microsoft.EntityFrameworkCore;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Orders;
using Nursery.Domain.Sites;

namespace Nursery.Application.Orders;

/// <summary>Deliveries of order lines by day, and the varieties taken instead by rank.</summary>
internal sealed record LineParts(
    ILookup<Id<OrderLine>, OrderDelivery> Deliveries,
    ILookup<Id<OrderLine>, LineSubstitute> Substitutes,
    IReadOnlyDictionary<Id<OrderDelivery>, int> Allocated)
{
    /// <summary>Of all lines of a site, or of one.</summary>
    public static async Task<LineParts> LoadAsync(
        NurseryDbContext database, Id<Site> siteId, CancellationToken cancellation, Id<OrderLine>? only = null)
    {
        var deliveries = await database.OrderDeliveries.AsNoTracking()
            .Where(row => row.SiteId == siteId && (only == null || row.OrderLineId == only))
            .OrderBy(row => row.ReadyOn).ToListAsync(cancellation);
        var substitutes = await (
            from substitute in database.OrderSubstitutes
            join line in database.OrderLines on substitute.OrderLineId equals line.Id
            join variety in database.Varieties on substitute.VarietyId equals variety.Id
            where line.SiteId == siteId && (only == null || line.Id == only)
            orderby substitute.Rank
            select new { line.Id, Substitute = new LineSubstitute(variety.Code, variety.Name) }).ToListAsync(cancellation);
        var allocated = await (
            from allocation in database.Allocations
            join line in database.OrderLines on allocation.OrderLineId equals line.Id
            where line.SiteId == siteId && (only == null || line.Id == only) && allocation.DeliveryId != null
            group allocation.Plants by allocation.DeliveryId!.Value into plants
            select new { plants.Key, Plants = plants.Sum() }).ToDictionaryAsync(row => row.Key, row => row.Plants, cancellation);
        return new LineParts(
            deliveries.ToLookup(row => row.OrderLineId), substitutes.ToLookup(row => row.Id, row => row.Substitute), allocated);
    }

    /// <summary>Plants of each delivery no batch is made for. Batches for the line as a whole serve the earliest deliveries first.</summary>
    /// <param name="line">The line.</param>
    /// <param name="allocated">Plants of all its batches.</param>
    public IReadOnlyList<(OrderDelivery Delivery, int Open)> OpenOf(Id<OrderLine> line, int allocated)
    {
        var whole = allocated - Deliveries[line].Sum(row => Allocated.GetValueOrDefault(row.Id));
        var open = new List<(OrderDelivery, int)>();
        foreach (var delivery in Deliveries[line])
        {
            var left = Math.Max(0, delivery.Plants - Allocated.GetValueOrDefault(delivery.Id));
            var served = Math.Min(left, Math.Max(0, whole));
            whole -= served;
            open.Add((delivery, left - served));
        }

        return open;
    }
}
