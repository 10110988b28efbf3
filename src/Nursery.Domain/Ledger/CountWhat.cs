namespace Nursery.Domain.Ledger;

/// <summary>What people count: every seedling, cells with at least one up, or blank cells.</summary>
public enum CountWhat
{
    Seedlings,
    CellsUp,
    Blanks,
}
