namespace Nursery.Past;

/// <summary>A bench with its zones, from left to right.</summary>
public sealed record PastBench(string Code, PastUse Use, int Spaces, IReadOnlyList<PastZone> Zones);
