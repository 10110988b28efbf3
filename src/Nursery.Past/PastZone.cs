namespace Nursery.Past;

/// <summary>A heat zone: its run of spaces, its setpoint and what its probe reads.</summary>
public sealed record PastZone(string Code, int FirstSpace, int Spaces, double SetpointC, double? ReadsC);
