namespace Nursery.Past;

/// <summary>A crop as the nursery plans with it: temperatures in °C, days from sowing, trays.</summary>
public sealed record PastCrop(
    string Code,
    double MinC,
    double OptimumC,
    double MaxC,
    int DaysToEmergence,
    int DaysToReady,
    int HeatDays,
    int HardeningDays,
    int CellsPerTray,
    int SeedsPerCell,
    double MoveOffFraction,
    int? ThinDays,
    PastUse GrowOn);
