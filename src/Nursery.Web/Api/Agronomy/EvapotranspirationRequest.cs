using NodaTime;

namespace Nursery.Web.Api.Agronomy;

/// <summary>A day of weather; humidity in exactly one way, sun in exactly one way, wind at 2 m unless told.</summary>
internal sealed record EvapotranspirationRequest(
    double TminC,
    double TmaxC,
    double? RhMeanPercent,
    double? RhMinPercent,
    double? RhMaxPercent,
    double? ActualKpa,
    double WindMs,
    double? WindHeightM,
    double? SunshineHours,
    double? SolarMjM2,
    double? SoilHeatMjM2,
    double Latitude,
    double AltitudeM,
    LocalDate Date);
