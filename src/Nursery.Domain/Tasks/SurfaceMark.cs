using NodaTime;
using Nursery.Domain.Ledger;

namespace Nursery.Domain.Tasks;

/// <summary>How the mix on a bench was seen, and on which day.</summary>
public sealed record SurfaceMark(SurfaceState State, LocalDate Day);
