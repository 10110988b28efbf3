using System.Globalization;
using Nursery.Application.Computed;

namespace Nursery.Web.Api.Agronomy;

/// <summary>Sun of a day. Times are the zone's; null with polar 'day' or 'night'.</summary>
internal sealed record SunAnswer(
    double ExtraterrestrialMjM2, double DaylightHours, double DeclinationDeg, string? Sunrise, string? Sunset, string? Polar, How How)
{
    private const double SecondsPerDay = 86400;

    /// <summary>HH:mm:ss of minutes after midnight, whatever day they fall on.</summary>
    public static string? Clock(double? minutes)
    {
        if (minutes is not { } given)
        {
            return null;
        }

        var seconds = Math.Round(given * 60) % SecondsPerDay;
        return TimeSpan.FromSeconds(seconds < 0 ? seconds + SecondsPerDay : seconds).ToString(@"hh\:mm\:ss", CultureInfo.InvariantCulture);
    }
}
