using System.Globalization;
using NodaTime;
using Nursery.Agronomy.Forecast;
using Nursery.Application.Computed;

namespace Nursery.Application.Forecasts;

/// <summary>What is to be known of a batch on the day it is sown: whether a short stand would show in time, and what an insurance tray costs.</summary>
/// <param name="BatchId">The batch.</param>
/// <param name="KnownInTime">False: a short stand shows only after the last day of a resow.</param>
/// <param name="KnownFrom">First day on which it shows.</param>
/// <param name="LastResowOn">Last day of a resow; may lie before the sowing.</param>
/// <param name="TraySaves">What one tray more saves on average less its price, in prices of one plant; below 0 when it does not pay.</param>
/// <param name="How">Where that comes from.</param>
public sealed record SowingRisk(
    Guid BatchId, bool KnownInTime, LocalDate? KnownFrom, LocalDate? LastResowOn, double TraySaves, How How)
{
    /// <summary>Null where no order waits: then nothing is at risk.</summary>
    internal static SowingRisk? Of(ForecastMaking making)
    {
        if (making is not { Question: { } question, Outlook: { } outlook, Forecast: { Wanted: > 0 and var wanted, KnownInTime: { } inTime } forecast })
        {
            return null;
        }

        var (cells, costs) = (making.Ground.Row.TraySet.CellsPerTray, new RemedyCosts());
        var resow = new ResowQuestion(question.Prior, question.SeedsPerCell, cells, 1) { Survival = making.Survival };
        var tray = Resow.Of(outlook, wanted, resow, costs, 1);
        var price = cells * costs.ResownCell;
        return new SowingRisk(
            forecast.BatchId, inTime, forecast.KnownFrom, forecast.LastResowOn, tray.Worth,
            new How(
                "insurance tray", "missing without × price of a missing plant − missing with it × that price − price of the tray",
                [
                    HowInput.Of("missing without, on average", outlook.MissingOf(wanted), "0.0", "plants", "forecast before any count"),
                    HowInput.Of("missing with it", tray.Missing, "0.0", "plants", "the same seed, one tray more"),
                    HowInput.Of("a missing plant", costs.MissingPlant, "0.0", "prices of a plant", "from memory"),
                    HowInput.Of("the tray", price, "0.0", "prices of a plant", string.Create(CultureInfo.InvariantCulture, $"{cells} cells at {costs.ResownCell:0.0}, from memory")),
                ],
                "shows from 1.5 × the days to half (from memory)", "docs/agronomy/short-stands.md"));
    }
}
