namespace Nursery.Web.Api.Orders;

/// <summary>The line, and the version to send with the next change.</summary>
internal sealed record ChangedOrderLine(Guid Id, int Version);
