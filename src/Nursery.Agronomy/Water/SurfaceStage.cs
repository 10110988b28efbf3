namespace Nursery.Agronomy.Water;

/// <summary>What the surface of a tray is, by how much it slows or speeds the loss of water.</summary>
public enum SurfaceStage
{
    BareWet,
    Vermiculite,
    Dome,
    Cotyledons,
    HalfCanopy,
    ClosedCanopy,
}
