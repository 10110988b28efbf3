namespace Nursery.Domain.Ledger;

/// <summary>Something of the setup was created (no before), changed (the changed fields) or taken away (no after).</summary>
public sealed record Changed(
    string What, string Code, IReadOnlyDictionary<string, string>? Before, IReadOnlyDictionary<string, string>? After) : EntryValue
{
    protected override LedgerKind OwnKind => LedgerKind.Changed;
}
