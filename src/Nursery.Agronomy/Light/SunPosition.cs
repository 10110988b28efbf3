namespace Nursery.Agronomy.Light;

/// <summary>Where the sun stands, all angles in degrees. Source: NOAA solar calculator, as <see cref="SunTimes"/>.</summary>
/// <param name="MeanLongitude">Geometric, 0 to 360.</param>
/// <param name="MeanAnomaly">Not reduced to one turn.</param>
/// <param name="Eccentricity">Of the earth's orbit.</param>
/// <param name="EquationOfCenter">True less mean anomaly.</param>
/// <param name="MeanObliquity">Of the ecliptic.</param>
/// <param name="RightAscension">−180 to 180.</param>
/// <param name="Declination">−24 to 24.</param>
/// <param name="EquationOfTime">Minutes, sundial less clock.</param>
internal sealed record SunPosition(
    double MeanLongitude, double MeanAnomaly, double Eccentricity, double EquationOfCenter, double MeanObliquity, double RightAscension,
    double Declination, double EquationOfTime)
{
    private const double Degree = Math.PI / 180;

    public double TrueLongitude => MeanLongitude + EquationOfCenter;

    /// <summary>Distance in astronomical units.</summary>
    public double RadiusVector =>
        1.000001018 * (1 - (Eccentricity * Eccentricity)) / (1 + (Eccentricity * Math.Cos((MeanAnomaly + EquationOfCenter) * Degree)));

    /// <summary>Julian centuries since noon of 1 January 2000.</summary>
    public static double CenturyOf(double julianDay) => (julianDay - 2451545) / 36525;

    public static SunPosition At(double century)
    {
        var longitude = Turn(280.46646 + (century * (36000.76983 + (century * 0.0003032))));
        var anomaly = 357.52911 + (century * (35999.05029 - (0.0001537 * century)));
        var eccentricity = 0.016708634 - (century * (0.000042037 + (0.0000001267 * century)));
        var center = (Sin(anomaly) * (1.914602 - (century * (0.004817 + (0.000014 * century)))))
            + (Sin(2 * anomaly) * (0.019993 - (0.000101 * century))) + (Sin(3 * anomaly) * 0.000289);
        var node = 125.04 - (1934.136 * century);
        var apparent = longitude + center - 0.00569 - (0.00478 * Sin(node));
        var obliquity = 23 + ((26 + ((21.448 - (century * (46.815 + (century * (0.00059 - (century * 0.001813)))))) / 60)) / 60);
        var corrected = obliquity + (0.00256 * Math.Cos(node * Degree));
        var ascension = Math.Atan2(Math.Cos(corrected * Degree) * Sin(apparent), Math.Cos(apparent * Degree)) / Degree;
        var declination = Math.Asin(Sin(corrected) * Sin(apparent)) / Degree;
        var y = Math.Pow(Math.Tan(corrected / 2 * Degree), 2);
        var time = (y * Sin(2 * longitude)) - (2 * eccentricity * Sin(anomaly))
            + (4 * eccentricity * y * Sin(anomaly) * Math.Cos(2 * longitude * Degree)) - (0.5 * y * y * Sin(4 * longitude))
            - (1.25 * eccentricity * eccentricity * Sin(2 * anomaly));
        return new SunPosition(longitude, anomaly, eccentricity, center, obliquity, ascension, declination, 4 * time / Degree);
    }

    private static double Turn(double degrees) => degrees - (360 * Math.Floor(degrees / 360));

    private static double Sin(double degrees) => Math.Sin(degrees * Degree);
}
