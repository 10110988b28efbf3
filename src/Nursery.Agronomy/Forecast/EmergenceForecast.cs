namespace Nursery.Agronomy.Forecast;

/// <summary>What is to be expected of a batch; intervals hold nine in ten.</summary>
/// <param name="FinalFraction">Seeds that will have emerged ÷ seeds.</param>
/// <param name="Stand">Cells that will have a plant.</param>
/// <param name="UsablePlants">Of the stand, what survives.</param>
/// <param name="ChanceWantedMet">That enough plants are usable.</param>
/// <param name="DayOf90Percent">When nine in ten of the final stand are up, days since sowing; null when the last temperature brings none.</param>
/// <param name="LastResowDay">Last whole day a resow of the same seed at the last temperature still meets the due day: due day − days of
/// growing − days until nine in ten of it are up; null without due day or days of growing.</param>
public sealed record EmergenceForecast(
    Interval FinalFraction, Interval Stand, Interval UsablePlants, Fraction ChanceWantedMet, double? DayOf90Percent, double? LastResowDay)
{
    /// <summary>Posterior of final emergence and speed on a fixed grid, with the likelihood of exactly what was counted. Deterministic.</summary>
    /// <exception cref="InputOutOfRange">An input of the question outside its range.</exception>
    public static EmergenceForecast Of(ForecastQuestion question) => EmergenceOutlook.Of(question).Forecast;
}
