using NodaTime;

namespace Nursery.Application.Orders;

/// <summary>A line of an order file; no deliveries are one delivery on the ready day.</summary>
/// <param name="Crop">The crop of the variety, by code or name, in a file that may bring new varieties; null in one that may not.</param>
/// <param name="VarietyName">As <paramref name="Crop"/>.</param>
internal sealed record OrderRow(
    int Line,
    string Order,
    string Customer,
    string Variety,
    int Plants,
    LocalDate ReadyOn,
    IReadOnlyList<AskedDelivery> Deliveries,
    IReadOnlyList<string> Substitutes,
    string? Crop = null,
    string? VarietyName = null);
