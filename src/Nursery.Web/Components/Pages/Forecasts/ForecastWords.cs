using System.Globalization;
using Nursery.Application.Forecasts;
using Nursery.Domain.Batches;
using Interval = Nursery.Agronomy.Interval;

namespace Nursery.Web.Components.Pages.Forecasts;

/// <summary>How a forecast is said.</summary>
public static class ForecastWords
{
    /// <summary>142 (131 to 150).</summary>
    public static string Count(Interval plants) => (long)plants.Low == (long)plants.High
        ? Written.Number((long)plants.Median)
        : $"{Written.Number((long)plants.Median)} ({Written.Number((long)plants.Low)} to {Written.Number((long)plants.High)})";

    /// <summary>Never 0 or 100: nobody knows.</summary>
    public static string Chance(double chance) => chance switch
    {
        < 0.01 => "under 1 %",
        > 0.99 => "over 99 %",
        _ => string.Create(CultureInfo.InvariantCulture, $"{chance * 100:0} %"),
    };

    /// <summary>3 to 19 April 2026.</summary>
    public static string Window(DayWindow days) => $"{days.Early.ToString(
        days.Early.Year == days.Late.Year ? days.Early.Month == days.Late.Month ? "%d" : "d MMMM" : "d MMMM uuuu", CultureInfo.InvariantCulture)} to {Written.Day(days.Late)}";

    public static string Of(RemedyKind kind) => kind switch
    {
        RemedyKind.Slack => "Slack",
        RemedyKind.Patch => "Patch",
        RemedyKind.Resow => "Resow",
        RemedyKind.OtherVariety => "Other variety",
        RemedyKind.PartDelivery => "Part delivery",
        RemedyKind.LateByConsent => "Late by consent",
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "a remedy without a word"),
    };

    public static string Basis(BatchForecast forecast)
    {
        var last = forecast.Last is { } count ? $"{Written.Number(count.CellsUp)} of {Written.Number(count.Cells)} cells had a plant on {Written.Day(count.Day)}" : "";
        return forecast switch
        {
            { Stage: BatchStage.Planned } => "Not sown yet: as expected of its seed, house and temperature.",
            { Basis: ForecastBasis.Expected } => "Nothing is counted yet: as expected of its seed, house and temperature.",
            { Basis: ForecastBasis.Over } => $"Emergence is over: {last}.",
            { NineInTenUpOn: { } up } when up < forecast.Today => $"By what was counted: {last}. More may have come since.",
            _ => $"By what was counted: {last}. More may come.",
        };
    }
}
