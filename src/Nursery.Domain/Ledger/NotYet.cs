using System.Text.Json.Serialization;
using System.Text.RegularExpressions;
using Nursery.Domain.Tasks;

namespace Nursery.Domain.Ledger;

/// <summary>A task was looked at and not done, and why.</summary>
public sealed partial record NotYet(TaskKind Task, int Occurrence, string Reason) : EntryValue
{
    /// <summary>Whether someone looked and saw no plants ('not up yet', 'nothing up'): the reason has the word 'up' in it. Any other
    /// reason leaves the look still to be done.</summary>
    [JsonIgnore]
    public bool SaysNotUp => Up().IsMatch(Reason);

    /// <summary>Whether someone looked and saw plants that are not ready ('not ready yet'): the reason has the word 'ready' in it.</summary>
    [JsonIgnore]
    public bool SaysNotReady => Ready().IsMatch(Reason);

    protected override LedgerKind OwnKind => LedgerKind.NotYet;

    [GeneratedRegex(@"\bready\b", RegexOptions.IgnoreCase)]
    private static partial Regex Ready();

    [GeneratedRegex(@"\bup\b", RegexOptions.IgnoreCase)]
    private static partial Regex Up();
}
