using Nursery.Domain.Tasks;

namespace Nursery.Domain.Ledger;

/// <summary>A task was looked at and not done, and why.</summary>
public sealed record NotYet(TaskKind Task, int Occurrence, string Reason) : EntryValue
{
    protected override LedgerKind OwnKind => LedgerKind.NotYet;
}
