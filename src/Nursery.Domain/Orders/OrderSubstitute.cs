using Nursery.Domain.Crops;

namespace Nursery.Domain.Orders;

/// <summary>A variety the customer takes instead of the one ordered.</summary>
public sealed class OrderSubstitute
{
    public required Id<OrderLine> OrderLineId { get; init; }
    public required Id<Variety> VarietyId { get; init; }

    /// <summary>1 is what they take first.</summary>
    public required int Rank { get; init; }
}
