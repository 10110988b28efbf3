using System.Globalization;
using NodaTime;
using NodaTime.Text;
using Nursery.Application.HeatAndLight;
using Nursery.Domain.HeatZones;
using Nursery.Domain.Sites;
using Nursery.Web.Components.Pages.Benches;

namespace Nursery.Web.Components.Pages.HeatAndLight;

/// <summary>The sentences of the screen.</summary>
internal static class ClimateWords
{
    private static readonly LocalDateTimePattern DayAndTime = LocalDateTimePattern.Create("d MMMM HH:mm", CultureInfo.GetCultureInfo("en-US"));

    public static string Summary(HeatAndLightView view)
    {
        var zones = Written.Count(view.Houses.Sum(house => house.Zones.Count), "heat zone");
        var open = view.Alarms.Count(alarm => alarm.Until is null);
        return open == 0 ? $"{zones}, no alarm" : $"{zones}, {Written.Count(open, "alarm")}";
    }

    public static string Alarm(ZoneAlarmItem alarm, Units units) => alarm.Kind switch
    {
        ZoneAlarmKind.TooCold => $"too cold, read {MapText.Degrees(alarm.WorstC!.Value, units)} at the lowest; {Bears(alarm, units)}",
        ZoneAlarmKind.TooHot => $"too hot, read {MapText.Degrees(alarm.WorstC!.Value, units)} at the highest; {Bears(alarm, units)}",
        ZoneAlarmKind.NoReading => "no reading for a day, though trays lie there",
        _ => throw new ArgumentOutOfRangeException(nameof(alarm), alarm.Kind, "an alarm without words"),
    };

    public static string Span(ZoneAlarmItem alarm, DateTimeZone zone) => alarm.Until is { } until
        ? $"{At(alarm.Since, zone)} to {At(until, zone)}"
        : $"since {At(alarm.Since, zone)}";

    public static string At(Instant at, DateTimeZone zone) => DayAndTime.Format(at.InZone(zone).LocalDateTime);

    /// <summary>'20 minutes ago', '3 hours ago', '2 days ago'.</summary>
    public static string Age(Instant at, Instant now) => (now - at) switch
    {
        { TotalMinutes: < 1.5 } => "just now",
        { TotalMinutes: < 90 } age => $"{age.TotalMinutes:0} minutes ago",
        { TotalHours: < 36 } age => $"{age.TotalHours:0} hours ago",
        var age => $"{age.TotalDays:0} days ago",
    };

    /// <summary>'12.4 kWh, USD 1.80'.</summary>
    public static string Energy(double kwh, decimal? cost, string currency) => string.Create(CultureInfo.InvariantCulture, $"{kwh:0.0} kWh")
        + (cost is { } hundredths ? string.Create(CultureInfo.InvariantCulture, $", {currency} {hundredths / 100:0.00}") : "");

    /// <summary>'9.1 (4.2 to 13)'.</summary>
    public static string Span(Agronomy.Interval interval) =>
        string.Create(CultureInfo.InvariantCulture, $"{interval.Median:0.0} ({interval.Low:0.0} to {interval.High:0.0})");

    private static string Bears(ZoneAlarmItem alarm, Units units) =>
        $"{alarm.CropName} germinates at {SiteDegrees.Range(alarm.MinC!.Value, alarm.MaxC!.Value, units)}";
}
