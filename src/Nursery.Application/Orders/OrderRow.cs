using NodaTime;

namespace Nursery.Application.Orders;

internal sealed record OrderRow(int Line, string Order, string Customer, string Variety, int Plants, LocalDate ReadyOn);
