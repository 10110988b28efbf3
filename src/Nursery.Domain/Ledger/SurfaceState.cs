namespace Nursery.Domain.Ledger;

public enum SurfaceState
{
    Dry,
    Damp,
    Wet,
}
