using NodaTime;

namespace Nursery.Application.Forecasts;

/// <summary>Plants of a batch an order line, or a delivery of it, waits for.</summary>
public sealed record OrderedPlants(Guid OrderLineId, Guid? DeliveryId, string Order, string Customer, int Plants, LocalDate DueOn);
