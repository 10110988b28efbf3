namespace Nursery.Agronomy.Light;

/// <summary>Daily light in a house on a day nobody measured: what a usual, a dull and a bright sky give.</summary>
public static class HouseLight
{
    /// <summary>Hours of sunshine of what the day could have: usual, dull and bright sky (from memory; a weather service's figure for the
    /// place and month is better).</summary>
    public const double UsualSunshine = 0.5;
    public const double DullSunshine = 0.1;
    public const double BrightSunshine = 0.9;

    /// <summary>Solar radiation outside, MJ m⁻² d⁻¹, from dull to bright. Source: FAO Irrigation and Drainage Paper 56, equation 35.</summary>
    /// <param name="latitude">Of the place.</param>
    /// <param name="dayOfYear">1 to 366.</param>
    /// <exception cref="InputOutOfRange">An input outside its range.</exception>
    public static Interval Outside(Latitude latitude, int dayOfYear)
    {
        var sun = new DaySun(latitude, dayOfYear);
        double Sky(double share) => sun.SolarMj(share * sun.DaylightHours);
        return new Interval(Sky(UsualSunshine), Sky(DullSunshine), Sky(BrightSunshine));
    }

    /// <summary>Daily light inside, mol m⁻² d⁻¹, from dull to bright.</summary>
    /// <param name="latitude">Of the place.</param>
    /// <param name="dayOfYear">1 to 366.</param>
    /// <param name="cover">Share the cover lets through.</param>
    /// <exception cref="InputOutOfRange">An input outside its range.</exception>
    public static Interval Inside(Latitude latitude, int dayOfYear, Fraction cover)
    {
        var outside = Outside(latitude, dayOfYear);
        return new Interval(
            DailyLight.Inside(outside.Median, cover), DailyLight.Inside(outside.Low, cover), DailyLight.Inside(outside.High, cover));
    }

    /// <summary>Radiation at the bench for the water it takes, MJ m⁻² d⁻¹: of a usual sky, through the cover.</summary>
    /// <inheritdoc cref="Inside"/>
    public static double InsideMj(Latitude latitude, int dayOfYear, Fraction cover) => Outside(latitude, dayOfYear).Median * cover.Value;
}
