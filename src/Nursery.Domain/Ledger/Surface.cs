namespace Nursery.Domain.Ledger;

/// <summary>What the mix on a bench looked like.</summary>
public sealed record Surface(SurfaceState State) : EntryValue
{
    protected override LedgerKind OwnKind => LedgerKind.Surface;
}
