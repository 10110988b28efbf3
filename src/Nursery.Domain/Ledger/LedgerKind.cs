namespace Nursery.Domain.Ledger;

/// <summary>What a ledger entry says; each has one record type among <see cref="EntryValue"/>.</summary>
public enum LedgerKind
{
    Receipt,
    Planned,
    Imported,
    Changed,
    Reserved,
    Replanned,
    SetpointChanged,
    BatchReplanned,
    Sown,
    Placed,
    Moved,
    Done,
    Undo,
    NotYet,
    Count,
    Surface,
    Loss,
    Discarded,
    Worked,
    TraysShared,
    TraysUnshared,
    TraysDiscarded,
    ResowPlanned,
    TakenOutOfUse,
    GivenBack,
}
