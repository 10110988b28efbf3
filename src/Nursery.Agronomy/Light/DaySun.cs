namespace Nursery.Agronomy.Light;

/// <summary>Radiation outside the air and length of a day. Source: Allen, Pereira, Raes &amp; Smith, Crop evapotranspiration, FAO Irrigation and
/// Drainage Paper 56, 1998, equations 21–25 and 34, with its solar constant 0.0820 MJ m⁻² min⁻¹. Near the poles the hour angle is held
/// between none and all day.</summary>
public sealed record DaySun
{
    private const double SolarConstant = 0.0820;
    private const double MinutesPerDay = 1440;

    /// <param name="latitude">Of the place.</param>
    /// <param name="dayOfYear">1 to 366.</param>
    /// <exception cref="InputOutOfRange">An input outside its range.</exception>
    public DaySun(Latitude latitude, int dayOfYear)
    {
        InputOutOfRange.Within(dayOfYear, 1, 366, nameof(dayOfYear), "day of the year");
        var turn = 2 * Math.PI * dayOfYear / 365;
        InverseDistance = 1 + (0.033 * Math.Cos(turn));
        DeclinationRadians = 0.409 * Math.Sin(turn - 1.39);
        var (phi, delta) = (latitude.Radians, DeclinationRadians);
        HourAngle = Math.Acos(Math.Clamp(-Math.Tan(phi) * Math.Tan(delta), -1, 1));
        ExtraterrestrialMj = Math.Max(0, MinutesPerDay / Math.PI * SolarConstant * InverseDistance
            * ((HourAngle * Math.Sin(phi) * Math.Sin(delta)) + (Math.Cos(phi) * Math.Cos(delta) * Math.Sin(HourAngle))));
    }

    /// <summary>Relative distance from earth to sun, inverted; about 1.</summary>
    public double InverseDistance { get; }

    public double DeclinationRadians { get; }

    /// <summary>At sunset, radians.</summary>
    public double HourAngle { get; }

    /// <summary>MJ m⁻² d⁻¹.</summary>
    public double ExtraterrestrialMj { get; }

    /// <summary>Hours, 0 to 24.</summary>
    public double DaylightHours => 24 / Math.PI * HourAngle;

    /// <summary>Solar radiation at the ground, MJ m⁻² d⁻¹ (equation 35 with 0.25 and 0.50).</summary>
    /// <param name="sunshineHours">0 to the day's length (a tenth of an hour more is let pass).</param>
    /// <exception cref="InputOutOfRange">An input outside its range.</exception>
    public double SolarMj(double sunshineHours)
    {
        InputOutOfRange.Within(sunshineHours, 0, DaylightHours + 0.1, nameof(sunshineHours), "h");
        return (0.25 + (0.50 * (DaylightHours > 0 ? Math.Min(1, sunshineHours / DaylightHours) : 0))) * ExtraterrestrialMj;
    }
}
