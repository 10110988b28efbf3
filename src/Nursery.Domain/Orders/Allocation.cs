using Nursery.Domain.Batches;

namespace Nursery.Domain.Orders;

/// <summary>Plants of a batch meant for an order line; many to many.</summary>
public sealed class Allocation
{
    public required Id<Batch> BatchId { get; init; }
    public required Id<OrderLine> OrderLineId { get; init; }
    public required int Plants { get; set; }
}
