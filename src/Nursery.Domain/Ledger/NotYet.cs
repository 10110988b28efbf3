using System.Text.Json.Serialization;
using Nursery.Domain.Tasks;

namespace Nursery.Domain.Ledger;

/// <summary>A task was looked at and not done, and why.</summary>
public sealed record NotYet(TaskKind Task, int Occurrence, string Reason) : EntryValue
{
    /// <summary>Whether someone looked and saw no plants; any other reason leaves the look still to be done.</summary>
    [JsonIgnore]
    public bool SaysNotUp => Reason.Trim().StartsWith("not up", StringComparison.OrdinalIgnoreCase);

    protected override LedgerKind OwnKind => LedgerKind.NotYet;
}
