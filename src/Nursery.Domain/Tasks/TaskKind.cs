namespace Nursery.Domain.Tasks;

/// <summary>What there is to do, in the order it is done at one place. The rule of each is in Tasks/Rules.</summary>
public enum TaskKind
{
    Sow,
    FirstWatering,

    /// <summary>The daily look at a bench; of the bench, not of a batch.</summary>
    Look,
    Water,
    EmergenceCheck,
    MoveOffHeat,
    Thin,
    Feed,
    Spacing,
    HardenOff,
    ReadyCheck,
    HandOver,
    ClearBench,

    /// <summary>The weekly search for pests and disease; of a house.</summary>
    Scout,
}
