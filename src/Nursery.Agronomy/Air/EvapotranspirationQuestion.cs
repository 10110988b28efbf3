using Nursery.Agronomy.Light;

namespace Nursery.Agronomy.Air;

/// <summary>A day of weather over open grass. Of humidity exactly one is given (mean, minimum with maximum, or vapor pressure), of sun exactly
/// one.</summary>
/// <param name="Minimum">Of the day, −60 to 60 °C.</param>
/// <param name="Maximum">Minimum to 60 °C.</param>
/// <param name="WindMs">0 to 50 m/s.</param>
/// <param name="WindHeight">At which it was measured, 0.5 to 100 m.</param>
/// <param name="Latitude">Of the place.</param>
/// <param name="Altitude">−500 to 9000 m.</param>
/// <param name="DayOfYear">1 to 366.</param>
public sealed record EvapotranspirationQuestion(
    Temperature Minimum, Temperature Maximum, double WindMs, Length WindHeight, Latitude Latitude, Length Altitude, int DayOfYear)
{
    public Fraction? MeanHumidity { get; init; }

    public Fraction? MinimumHumidity { get; init; }

    public Fraction? MaximumHumidity { get; init; }

    public Pressure? Actual { get; init; }

    /// <summary>Hours, 0 to the day's length.</summary>
    public double? SunshineHours { get; init; }

    /// <summary>MJ m⁻² d⁻¹, 0 to 60.</summary>
    public double? SolarMj { get; init; }

    /// <summary>Heat into the soil, −20 to 20 MJ m⁻² d⁻¹; none over a single day.</summary>
    public double SoilHeatMj { get; init; }

    internal void Check()
    {
        InputOutOfRange.Within(Minimum.C, -60, 60, "tminC", "°C");
        InputOutOfRange.Within(Maximum.C, Minimum.C, 60, "tmaxC", "°C");
        InputOutOfRange.Within(WindMs, 0, 50, "windMs", "m/s");
        InputOutOfRange.Within(WindHeight.Meters, 0.5, 100, "windHeightM", "m");
        InputOutOfRange.Within(Altitude.Meters, -500, 9000, "altitudeM", "m");
        var pair = (MinimumHumidity is null ? 0 : 1) + (MaximumHumidity is null ? 0 : 1);
        if (pair == 1 || (MeanHumidity is null ? 0 : 1) + (pair / 2) + (Actual is null ? 0 : 1) != 1)
        {
            throw new InputOutOfRange("rhMeanPercent", "one of several or none", "%", "rhMeanPercent, rhMinPercent with rhMaxPercent, or actualKpa: exactly one");
        }

        if (MinimumHumidity?.Value > MaximumHumidity?.Value)
        {
            throw InputOutOfRange.Of(MinimumHumidity.Value.Percent, "rhMinPercent", "%", "not above rhMaxPercent");
        }

        if (SunshineHours is null == SolarMj is null)
        {
            throw new InputOutOfRange("sunshineHours", "both or none", "h", "sunshineHours or solarMjM2: exactly one");
        }

        InputOutOfRange.Within(Actual?.Kilopascals ?? 0, 0, 20, "actualKpa", "kPa");
        InputOutOfRange.Within(SoilHeatMj, -20, 20, "soilHeatMjM2", "MJ m⁻² d⁻¹");
        InputOutOfRange.Within(SolarMj ?? 0, 0, 60, "solarMjM2", "MJ m⁻² d⁻¹");
    }
}
