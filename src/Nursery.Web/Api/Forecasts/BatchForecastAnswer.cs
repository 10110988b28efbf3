using Nursery.Agronomy;
using Nursery.Application.Forecasts;

namespace Nursery.Web.Api.Forecasts;

/// <summary>A forecast, and its bands by day after sowing.</summary>
internal sealed record BatchForecastAnswer(
    BatchForecast Forecast, IReadOnlyList<BandAnswer> ExpectedAtSowing, IReadOnlyList<BandAnswer> ExpectedNow, IReadOnlyList<CountedAnswer> Counted)
{
    public static BatchForecastAnswer From(ForecastView view) => new(
        view.Forecast,
        [.. (view.Bands?.AtSowing ?? []).Select(day => new BandAnswer(day.Day, day.Up))],
        [.. (view.Bands?.Now ?? []).Select(day => new BandAnswer(day.Day, day.Up))],
        [.. (view.Bands?.Counted ?? []).Select(count => new CountedAnswer(count.Day, count.Fraction))]);
}

/// <summary>Seeds up on a day after sowing ÷ seeds; low to high holds nine in ten.</summary>
internal sealed record BandAnswer(double Day, Interval Up);

/// <summary>Seedlings counted on a day after sowing ÷ seeds of the cells counted.</summary>
internal sealed record CountedAnswer(int Day, decimal Fraction);
