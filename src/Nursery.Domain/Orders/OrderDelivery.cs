using NodaTime;
using Nursery.Domain.Sites;

namespace Nursery.Domain.Orders;

/// <summary>A part of an order line that is wanted on a day of its own. The deliveries of a line are all of its plants.</summary>
public sealed class OrderDelivery
{
    public required Id<OrderDelivery> Id { get; init; }
    public required Id<Site> SiteId { get; init; }
    public required Id<OrderLine> OrderLineId { get; init; }

    /// <summary>One delivery a day.</summary>
    public required LocalDate ReadyOn { get; init; }
    public required int Plants { get; set; }
}
