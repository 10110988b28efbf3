namespace Nursery.Agronomy.Forecast;

/// <summary>One count: all cells or a sample of them.</summary>
/// <param name="Day">Days since sowing, 0 to 366.</param>
/// <param name="What">What was counted.</param>
/// <param name="Value">How many, 0 or more; may fall when seedlings die.</param>
/// <param name="Cells">Cells looked at, 1 or more.</param>
public sealed record EmergenceCount(double Day, CountKind What, int Value, int Cells);
