namespace Nursery.Application.Germination;

/// <summary>What batches are put together by.</summary>
public enum GerminationKey
{
    Crop,
    Variety,
    Lot,

    /// <summary>The house where the trays first stood.</summary>
    House,
}
