using NodaTime;

namespace Nursery.Application.Orders;

/// <summary>A line of an order file; no deliveries are one delivery on the ready day.</summary>
internal sealed record OrderRow(
    int Line,
    string Order,
    string Customer,
    string Variety,
    int Plants,
    LocalDate ReadyOn,
    IReadOnlyList<AskedDelivery> Deliveries,
    IReadOnlyList<string> Substitutes);
