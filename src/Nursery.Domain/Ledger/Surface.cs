namespace Nursery.Domain.Ledger;

/// <summary>What the mix on a bench looked like.</summary>
public sealed record Surface(SurfaceState State) : EntryValue
{
    public override LedgerKind Kind => LedgerKind.Surface;
}
