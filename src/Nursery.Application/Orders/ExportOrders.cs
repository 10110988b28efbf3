using System.Text;
using Nursery.Domain.People;

namespace Nursery.Application.Orders;

/// <summary>The order lines as the CSV their import reads: imported again it adds nothing.</summary>
public sealed class ExportOrders(ListOrderLines list)
{
    public async Task<byte[]> HandleAsync(Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Read);
        var lines = (await list.HandleAsync(Paging.All, actor, cancellation)).Items
            .OrderBy(line => line.ReadyOn).ThenBy(line => line.Order, StringComparer.Ordinal)
            .ThenBy(line => line.VarietyCode, StringComparer.Ordinal).ThenBy(line => line.Id)
            .Select(line => CsvLine.Of(
                line.Order, line.Customer, line.VarietyCode, line.Plants, line.ReadyOn,
                AskedDelivery.Write(line.Deliveries.Select(delivery => new AskedDelivery(delivery.ReadyOn, delivery.Plants))),
                string.Join("; ", line.Substitutes.Select(substitute => substitute.Code))))
            .Prepend(CsvLine.Of("order", "customer", "variety", "plants", "ready_on", "deliveries", "substitutes"));
        return Encoding.UTF8.GetBytes(string.Concat(lines));
    }
}
