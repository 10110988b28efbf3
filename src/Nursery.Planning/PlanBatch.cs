namespace Nursery.Planning;

/// <summary>A tray set to be placed: first on heat, then on a bench of its band.</summary>
/// <param name="Id">The tray set.</param>
/// <param name="Order">Ties of the sow day are broken by it.</param>
/// <param name="Spaces">Tray spaces it takes, 1 or more.</param>
/// <param name="MinC">Lowest setpoint its seed accepts, °C.</param>
/// <param name="MaxC">Highest, °C.</param>
/// <param name="Band">Where it grows on: Warm or Cool.</param>
/// <param name="SowOn">First day on heat.</param>
/// <param name="MoveOffOn">First day off heat.</param>
/// <param name="GoneOn">First day it no longer stands anywhere.</param>
public sealed record PlanBatch(
    Guid Id,
    Guid Order,
    int Spaces,
    decimal MinC,
    decimal MaxC,
    BenchUse Band,
    DateOnly SowOn,
    DateOnly MoveOffOn,
    DateOnly GoneOn);
