using NodaTime;
using Nursery.Domain.Crops;
using Nursery.Domain.Sites;

namespace Nursery.Domain.Orders;

/// <summary>So many plants of a variety, transplant-ready on a day. Order, variety and day identify it.</summary>
public sealed class OrderLine
{
    public required Id<OrderLine> Id { get; init; }
    public required Id<Site> SiteId { get; init; }
    public required Id<Order> OrderId { get; init; }
    public required Id<Variety> VarietyId { get; init; }

    /// <summary>1–1,000,000.</summary>
    public required int Plants { get; set; }
    public required LocalDate ReadyOn { get; set; }
    public int Version { get; set; } = 1;
}
