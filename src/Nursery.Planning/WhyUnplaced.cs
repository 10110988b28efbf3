namespace Nursery.Planning;

public enum WhyUnplaced
{
    /// <summary>No zone's setpoint lies in the band the seed accepts.</summary>
    NoZoneSuits,

    /// <summary>Zones suit, none has a free run long enough.</summary>
    ZonesFull,
    NoBenchOfBand,
    BenchesFull,
}
