using NodaTime;
using Nursery.Agronomy.Forecast;

namespace Nursery.Application.Forecasts.Curves;

/// <summary>What was expected at sowing, what is expected now, and what was counted: by day after sowing, as shares of the seeds.</summary>
/// <param name="AtSowing">Before anything was counted.</param>
/// <param name="Now">From the last count on; empty before the first.</param>
/// <param name="Counted">Points: day after sowing and share of seeds up.</param>
/// <param name="AsOfDay">Today, days after sowing.</param>
public sealed record EmergenceBands(
    IReadOnlyList<BandDay> AtSowing, IReadOnlyList<BandDay> Now, IReadOnlyList<(int Day, decimal Fraction)> Counted, int AsOfDay)
{
    private const int Steps = 32;
    private const double Beyond = 1.5;
    private const int Least = 5;
    private const int Most = 120;

    internal static EmergenceBands? Of(ForecastMaking making)
    {
        if (making is not { Question: { } question, Outlook: { } outlook })
        {
            return null;
        }

        var sown = making.Ground.SownOn;
        var counts = making.Ground.Counts.Where(count => !count.OfStand)
            .Select(count => (Day: Period.DaysBetween(sown, count.Day), count.Fraction)).ToList();
        var prior = counts.Count == 0 ? outlook : EmergenceOutlook.Of(question with { Counts = [] });
        var last = counts.Count == 0 ? 0 : counts[^1].Day;
        var end = Math.Clamp(Beyond * Math.Max(outlook.Forecast.DayOf90Percent ?? Least, prior.Forecast.DayOf90Percent ?? Least), Math.Max(Least, last + 1), Math.Max(Most, last + 1));
        return new EmergenceBands(
            Band(prior, 0, end), counts.Count == 0 ? [] : Band(outlook, last, end), counts, (int)question.AsOfDay);
    }

    private static List<BandDay> Band(EmergenceOutlook outlook, double from, double to) =>
        [.. Enumerable.Range(0, Steps + 1).Select(step => from + ((to - from) * step / Steps)).Select(day => new BandDay(day, outlook.UpAt(day)))];
}
