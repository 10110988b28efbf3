namespace Nursery.Domain.Ledger;

/// <summary>Another batch was planned to make up for a short stand: its code, and the plants its orders now wait for there.</summary>
public sealed record ResowPlanned(string BatchCode, int Plants) : EntryValue
{
    protected override LedgerKind OwnKind => LedgerKind.ResowPlanned;
}
