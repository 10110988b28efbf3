namespace Nursery.Past;

/// <summary>What somebody reported.</summary>
public enum PastWork
{
    Sow,
    Water,
    NotUp,
    Hooks,
    CountSeedlings,
    CountBlanks,
    MoveOffHeat,
    Thin,
    Harden,
    Loss,
    Surface,
    HandOver,
    ClearBench,
}
