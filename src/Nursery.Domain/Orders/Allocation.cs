using Nursery.Domain.Batches;

namespace Nursery.Domain.Orders;

/// <summary>Plants of a batch meant for an order line; many to many.</summary>
public sealed class Allocation
{
    public required Id<Batch> BatchId { get; init; }
    public required Id<OrderLine> OrderLineId { get; init; }
    public required int Plants { get; set; }

    /// <summary>The delivery of the line they are for; null is the line as a whole.</summary>
    public Id<OrderDelivery>? DeliveryId { get; init; }
}
