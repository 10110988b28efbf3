using NodaTime;

namespace Nursery.Application.HeatZones.Readings;

/// <summary>A reading as it was sent.</summary>
/// <param name="Field">What stands before the names of its fields in errors: readings[3]. or nothing.</param>
/// <param name="Line">Of the file; null without one.</param>
/// <param name="Zone">Code of the zone.</param>
/// <param name="At">When it was read.</param>
/// <param name="TemperatureC">°C.</param>
internal sealed record ZoneReadingRow(string Field, int? Line, string Zone, Instant At, decimal TemperatureC);
