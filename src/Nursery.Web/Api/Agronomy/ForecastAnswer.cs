using Nursery.Agronomy;
using Nursery.Agronomy.Forecast;
using Nursery.Application.Computed;

namespace Nursery.Web.Api.Agronomy;

/// <summary>What is to be expected; low to high holds nine in ten.</summary>
internal sealed record ForecastAnswer(
    Interval FinalFraction,
    Interval Stand,
    Interval UsablePlants,
    double ChanceWantedMet,
    double? DayOf90Percent,
    double? LastResowDay,
    How How)
{
    public static ForecastAnswer Of(EmergenceForecast forecast, How how) => new(
        forecast.FinalFraction, forecast.Stand, forecast.UsablePlants, forecast.ChanceWantedMet.Value, forecast.DayOf90Percent, forecast.LastResowDay, how);
}
