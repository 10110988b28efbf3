using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Crops;
using Nursery.Domain.Orders;
using Nursery.Domain.Sites;

namespace Nursery.Application.Orders;

internal sealed record KnownLine(int Plants, IReadOnlyList<AskedDelivery> Deliveries, IReadOnlyList<string> Substitutes);

/// <summary>What the site already has, by the words of an order file.</summary>
internal sealed record KnownRows(
    Dictionary<string, Id<Variety>> Varieties,
    Dictionary<string, Id<Customer>> Customers,
    Dictionary<string, Id<Order>> Orders,
    Dictionary<string, string> CustomerOfOrder,
    Dictionary<(string Order, string Variety, LocalDate ReadyOn), KnownLine> Lines)
{
    public static async Task<KnownRows> LoadAsync(
        NurseryDbContext database, Id<Site> siteId, CancellationToken cancellation)
    {
        var orders = await (
            from order in database.Orders
            join customer in database.Customers on order.CustomerId equals customer.Id
            where order.SiteId == siteId
            select new { order.Id, order.Number, customer.Name }).ToListAsync(cancellation);
        var lines = await (
            from line in database.OrderLines
            join order in database.Orders on line.OrderId equals order.Id
            join variety in database.Varieties on line.VarietyId equals variety.Id
            where line.SiteId == siteId
            select new { line.Id, order.Number, variety.Code, line.ReadyOn, line.Plants }).ToListAsync(cancellation);
        var parts = await LineParts.LoadAsync(database, siteId, cancellation);
        return new KnownRows(
            await database.Varieties.Where(variety => variety.RetiredOn == null)
                .ToDictionaryAsync(variety => variety.Code, variety => variety.Id, cancellation),
            await database.Customers.ToDictionaryAsync(customer => customer.Name, customer => customer.Id, cancellation),
            orders.ToDictionary(order => order.Number, order => order.Id),
            orders.ToDictionary(order => order.Number, order => order.Name),
            lines.ToDictionary(
                line => (line.Number, line.Code, line.ReadyOn),
                line => new KnownLine(
                    line.Plants,
                    [.. parts.Deliveries[line.Id].Select(row => new AskedDelivery(row.ReadyOn, row.Plants))],
                    [.. parts.Substitutes[line.Id].Select(row => row.Code)])));
    }
}
