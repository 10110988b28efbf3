namespace Nursery.Agronomy.Germination;

/// <summary>What is said of one lot against what was expected of it.</summary>
public enum LotVerdict
{
    NoDifference,
    Worse,
    Better,
}
