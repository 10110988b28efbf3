using Nursery.Domain.Tasks;

namespace Nursery.Domain.Ledger;

/// <summary>Work nobody planned: what kind when it is one the tasks know, so that the next one comes later; else in words.</summary>
public sealed record Worked(TaskKind? Task, string? Words) : EntryValue
{
    protected override LedgerKind OwnKind => LedgerKind.Worked;
}
