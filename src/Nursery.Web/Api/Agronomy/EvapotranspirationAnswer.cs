using Nursery.Agronomy.Air;
using Nursery.Application.Computed;

namespace Nursery.Web.Api.Agronomy;

/// <summary>mm a day and every term; radiation in MJ m⁻² d⁻¹.</summary>
internal sealed record EvapotranspirationAnswer(
    double MmPerDay,
    double MeanC,
    double PressureKpa,
    double PsychrometricKpaPerC,
    double SlopeKpaPerC,
    double SaturationKpa,
    double ActualKpa,
    double DeficitKpa,
    double Wind2Ms,
    double InverseDistance,
    double DeclinationRad,
    double SunsetHourAngleRad,
    double DaylightHours,
    double ExtraterrestrialMjM2,
    double SolarMjM2,
    double ClearSkyMjM2,
    double NetShortwaveMjM2,
    double NetLongwaveMjM2,
    double NetMjM2,
    How How)
{
    public static EvapotranspirationAnswer Of(ReferenceEvapotranspiration day, How how) => new(
        day.MmPerDay, day.MeanC, day.PressureKpa, day.GammaKpa, day.SlopeKpa, day.SaturationKpa, day.ActualKpa, day.SaturationKpa - day.ActualKpa,
        day.Wind2Ms, day.Sun.InverseDistance, day.Sun.DeclinationRadians, day.Sun.HourAngle, day.Sun.DaylightHours, day.Sun.ExtraterrestrialMj,
        day.SolarMj, day.ClearSkyMj, day.NetShortwaveMj, day.NetLongwaveMj, day.NetMj, how);
}
