namespace Nursery.Application.Germination;

/// <summary>How seed came up, for one crop, variety, lot or house. Fractions are 0–1, also differences of them.</summary>
/// <param name="Seeds">Those of the counted cells.</param>
/// <param name="FractionSpread">Standard deviation between batches; null for one batch.</param>
/// <param name="LabelFraction">Germination on the labels, each lot weighing by its counted seeds; null when no batch's lot is known.</param>
/// <param name="LabelDifference">Fraction of the batches with a label, less that.</param>
/// <param name="MinimumKind">The kind of the published minimum; null when none is known, or when the batches are of several.</param>
/// <param name="MinimumDifference">Fraction less the published minimum.</param>
/// <param name="HalfDays">Days from sowing until half of the emerged were up: the median of the batches for which counts tell it.</param>
/// <param name="HalfBatches">How many those are.</param>
public sealed record GerminationItem(
    string Key,
    string Name,
    int Batches,
    long Seeds,
    decimal Emerged,
    decimal Fraction,
    double? FractionSpread,
    decimal? LabelFraction,
    decimal? LabelDifference,
    string? MinimumKind,
    decimal? MinimumFraction,
    decimal? MinimumDifference,
    double? HalfDays,
    int HalfBatches);
