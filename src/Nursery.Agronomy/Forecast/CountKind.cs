namespace Nursery.Agronomy.Forecast;

/// <summary>What people count.</summary>
public enum CountKind
{
    Seedlings,
    CellsUp,
    Blanks,
}
