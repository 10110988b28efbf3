using NodaTime;
using Nursery.Domain.HeatZones;

namespace Nursery.Application.Scenario;

/// <summary>An invented week of readings before the load, so that the zones of a demo have a course: about what their file says they
/// read, a little warmer by day, and one cold night in the last of them.</summary>
internal static class ScenarioReadings
{
    private const int Days = 7;
    private const int EveryHours = 2;
    private const double ByDayC = 0.5;
    private const double ColdNightC = 2.5;

    public static IEnumerable<ZoneReading> Of(IReadOnlyCollection<HeatZone> zones, Instant now)
    {
        foreach (var (zone, number) in zones.Select((zone, number) => (zone, number)))
        {
            if (zone.ReadsC is not { } reads)
            {
                continue;
            }

            for (var hours = Days * 24; hours >= 0; hours -= EveryHours)
            {
                var at = now - Duration.FromHours(hours);
                var byDay = ByDayC * Math.Sin((hours + (3 * number)) * Math.PI / 12);
                var cold = number == zones.Count - 1 && hours is > 54 and < 66 ? -ColdNightC : 0;
                yield return new ZoneReading
                {
                    ZoneId = zone.Id,
                    SiteId = zone.SiteId,
                    At = at,
                    TemperatureC = hours == 0 ? reads : decimal.Round(reads + (decimal)(byDay + cold), 2),
                };
            }
        }
    }
}
