using Nursery.Application.Orders;

namespace Nursery.Web.Api.Orders;

/// <summary>How an order line is delivered and what is taken instead; what is left out is none.</summary>
internal sealed record ChangeOrderLineBody(int Version, IReadOnlyList<AskedDelivery>? Deliveries, IReadOnlyList<string>? Substitutes);
