using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Crops;
using Nursery.Domain.Orders;
using Nursery.Domain.Sites;

namespace Nursery.Application.Papers;

/// <summary>Plants an order wants on a day: a line, or one delivery of a line that is delivered in parts.</summary>
/// <param name="Delivery">Null for a line as a whole.</param>
/// <param name="First">Whether plants allocated to the line as a whole belong here.</param>
internal sealed record WantedPlants(
    Id<OrderLine> Line,
    Id<OrderDelivery>? Delivery,
    bool First,
    Id<Variety> Variety,
    string Order,
    string Customer,
    string Subject,
    int Plants,
    LocalDate On)
{
    /// <summary>In the order they are picked: by order, day and name.</summary>
    public static async Task<List<WantedPlants>> LoadAsync(
        NurseryDbContext database, Id<Site> site, string? order, LocalDate? day, CancellationToken cancellation)
    {
        var lines = await (
            from line in database.OrderLines
            join parent in database.Orders on line.OrderId equals parent.Id
            join customer in database.Customers on parent.CustomerId equals customer.Id
            join variety in database.Varieties on line.VarietyId equals variety.Id
            join crop in database.Crops on variety.CropId equals crop.Id
            where line.SiteId == site && (order == null || parent.Number == order)
                && (day == null || line.ReadyOn == day || database.OrderDeliveries.Any(part => part.OrderLineId == line.Id && part.ReadyOn == day))
            select new WantedPlants(
                line.Id, null, true, line.VarietyId, parent.Number, customer.Name, crop.Name + " ‘" + variety.Name + "’", line.Plants, line.ReadyOn))
            .AsNoTracking().ToListAsync(cancellation);
        var ids = lines.ConvertAll(line => line.Line);
        var parts = (await database.OrderDeliveries.AsNoTracking().Where(part => ids.Contains(part.OrderLineId)).ToListAsync(cancellation))
            .OrderBy(part => part.ReadyOn).ToLookup(part => part.OrderLineId);
        return
        [
            .. lines.SelectMany(line => parts[line.Line].Any() ? parts[line.Line].Select((part, i) => line.Of(part, i == 0)) : [line])
                .Where(wanted => day is null || wanted.On == day)
                .OrderBy(wanted => wanted.Order, StringComparer.Ordinal).ThenBy(wanted => wanted.On)
                .ThenBy(wanted => wanted.Subject, StringComparer.Ordinal).ThenBy(wanted => wanted.Line),
        ];
    }

    private WantedPlants Of(OrderDelivery part, bool first) =>
        this with { Delivery = part.Id, First = first, Plants = part.Plants, On = part.ReadyOn };
}
