namespace Nursery.Printing.MixSheets;

/// <summary>Something to weigh, measure or fill.</summary>
/// <param name="What">Such as "gypsum" or "trays of 72".</param>
/// <param name="Amount">Such as "0.9 oz (26 g)".</param>
/// <param name="Detail">Such as "600 g a cubic meter".</param>
public sealed record MixLine(string What, string Amount, string Detail);
