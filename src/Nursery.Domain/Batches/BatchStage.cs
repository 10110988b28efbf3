namespace Nursery.Domain.Batches;

/// <summary>How far a batch is; the word and the pattern people see everywhere.</summary>
public enum BatchStage
{
    Planned,
    Sown,

    /// <summary>First hooks seen.</summary>
    Emerging,
    GrowingOn,
    HardeningOff,
    Ready,
    HandedOver,
    Discarded,
}
