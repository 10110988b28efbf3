using Nursery.Domain.Tasks;

namespace Nursery.Domain.Ledger;

/// <summary>A task was done.</summary>
public sealed record Done(TaskKind Task, int Occurrence) : EntryValue
{
    protected override LedgerKind OwnKind => LedgerKind.Done;
}
