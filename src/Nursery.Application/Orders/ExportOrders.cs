using System.Text;
using Nursery.Application.Setup.Lists;
using Nursery.Domain.People;

namespace Nursery.Application.Orders;

/// <summary>The order lines as the CSV their import reads: imported again it adds nothing.</summary>
public sealed class ExportOrders(ListOrderLines list)
{
    private static readonly SetupColumn[] Columns =
    [
        new("order", "Order"),
        new("customer", "Customer"),
        new("variety", "Variety", ColumnKind.Code),
        new("plants", "Plants", ColumnKind.Whole),
        new("ready_on", "Ready on", ColumnKind.Day),
        new("deliveries", "Deliveries"),
        new("substitutes", "Substitutes"),
    ];

    public async Task<byte[]> HandleAsync(Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Read);
        var lines = (await list.HandleAsync(Paging.All, actor, cancellation)).Items
            .OrderBy(line => line.ReadyOn).ThenBy(line => line.Order, StringComparer.Ordinal)
            .ThenBy(line => line.VarietyCode, StringComparer.Ordinal).ThenBy(line => line.Id);
        return Encoding.UTF8.GetBytes(CsvWriting.Write(Columns, lines.Select(line => new Dictionary<string, string>
        {
            ["order"] = line.Order,
            ["customer"] = line.Customer,
            ["variety"] = line.VarietyCode,
            ["plants"] = Cell.Of(line.Plants),
            ["ready_on"] = Cell.Of(line.ReadyOn),
            ["deliveries"] = AskedDelivery.Write(line.Deliveries.Select(delivery => new AskedDelivery(delivery.ReadyOn, delivery.Plants))),
            ["substitutes"] = string.Join("; ", line.Substitutes.Select(substitute => substitute.Code)),
        })));
    }
}
