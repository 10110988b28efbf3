namespace Nursery.Application.Germination;

/// <summary>What rows of germination are sorted by.</summary>
public enum GerminationOrder
{
    Name,
    Batches,
    Seeds,
    Emerged,
    Fraction,
    FractionSpread,
    HalfDays,
    LabelDifference,
    MinimumDifference,
}
