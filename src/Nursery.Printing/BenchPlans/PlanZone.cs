namespace Nursery.Printing.BenchPlans;

/// <summary>A heat zone, with its setpoint such as "80 °F".</summary>
public sealed record PlanZone(string Code, int FirstSpace, int Spaces, string Setpoint);
