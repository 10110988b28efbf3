namespace Nursery.Domain.HeatZones;

public enum ZoneAlarmKind
{
    TooCold,
    TooHot,

    /// <summary>A zone that was read before is read no more.</summary>
    NoReading,
}
