namespace Nursery.Printing.BenchTags;

/// <summary>A heat zone of the bench, such as ("2A-1", "1–30", "80 °F").</summary>
public sealed record ZoneLine(string Code, string Spaces, string Setpoint);
