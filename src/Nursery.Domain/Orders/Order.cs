using Nursery.Domain.Sites;

namespace Nursery.Domain.Orders;

public sealed class Order
{
    public required Id<Order> Id { get; init; }
    public required Id<Site> SiteId { get; init; }

    /// <summary>The number people use for it; unique in a site.</summary>
    public required string Number { get; init; }
    public required Id<Customer> CustomerId { get; init; }
}
