namespace Nursery.Agronomy.Light;

/// <summary>Sunrise and sunset to about a minute and a half. Source: the solar calculator of the NOAA Global Monitoring Laboratory, after
/// Meeus, Astronomical Algorithms: sun's upper edge with refraction, 90.833° from the zenith.</summary>
/// <param name="Sunrise">Minutes after midnight of the zone; null in polar day or night.</param>
/// <param name="Sunset">Minutes after midnight of the zone; may lie outside 0–1440 near its edges.</param>
/// <param name="Noon">Minutes after midnight when the sun is highest.</param>
/// <param name="Declination">Degrees, at noon of the zone.</param>
/// <param name="IsPolarDay">The sun does not set.</param>
/// <param name="IsPolarNight">The sun does not rise.</param>
public sealed record SunTimes(double? Sunrise, double? Sunset, double Noon, double Declination, bool IsPolarDay, bool IsPolarNight)
{
    private const double Zenith = 90.833;

    /// <summary>Days from 1 January 4713 BC, noon, to 1 January of year 1, midnight.</summary>
    private const double JulianOfYearOne = 1721425.5;

    /// <param name="latitude">Of the place.</param>
    /// <param name="longitude">Of the place.</param>
    /// <param name="date">Day of the zone.</param>
    /// <param name="hoursEast">The zone's offset from UTC, −18 to 18 hours.</param>
    /// <exception cref="InputOutOfRange">An input outside its range.</exception>
    public static SunTimes Of(Latitude latitude, Longitude longitude, DateOnly date, double hoursEast)
    {
        InputOutOfRange.Within(hoursEast, -18, 18, nameof(hoursEast), "h");
        double Century(double minutes) => SunPosition.CenturyOf(JulianOfYearOne + date.DayNumber + ((minutes / 60) - hoursEast) / 24);
        var noon = 720d;
        for (var round = 0; round < 2; round++)
        {
            noon = 720 - (4 * longitude.Degrees) - SunPosition.At(Century(noon)).EquationOfTime + (60 * hoursEast);
        }

        var declination = SunPosition.At(Century(720)).Declination;
        var (rise, set) = (Edge(-1), Edge(1));
        var cosine = Cosine(latitude.Radians, SunPosition.At(Century(noon)).Declination);
        return rise is null || set is null
            ? new SunTimes(null, null, noon, declination, cosine < 0, cosine >= 0)
            : new SunTimes(rise, set, noon, declination, false, false);

        double? Edge(int side)
        {
            var minutes = noon;
            for (var round = 0; round < 4; round++)
            {
                var sun = SunPosition.At(Century(minutes));
                var at = Cosine(latitude.Radians, sun.Declination);
                if (at is < -1 or > 1)
                {
                    return null;
                }

                var solarNoon = 720 - (4 * longitude.Degrees) - sun.EquationOfTime + (60 * hoursEast);
                minutes = solarNoon + (side * 4 * Math.Acos(at) * 180 / Math.PI);
            }

            return minutes;
        }
    }

    private static double Cosine(double latitude, double declination)
    {
        var delta = declination * Math.PI / 180;
        return (Math.Cos(Zenith * Math.PI / 180) / (Math.Cos(latitude) * Math.Cos(delta))) - (Math.Tan(latitude) * Math.Tan(delta));
    }
}
