using Nursery.Application.Computed;

namespace Nursery.Application.Forecasts;

/// <summary>A batch that will fall short.</summary>
/// <param name="Forecast">Of the batch.</param>
/// <param name="Remedies">All of them, in one order, whether they can be or not.</param>
/// <param name="CostOfNothing">What is missing on average, in prices of one plant.</param>
/// <param name="Regret">What waiting costs: the most a remedy saves that can be done now, in prices of one plant.</param>
/// <param name="How">Where those numbers come from.</param>
public sealed record ShortStandItem(
    BatchForecast Forecast, IReadOnlyList<Remedy> Remedies, double CostOfNothing, double Regret, IReadOnlyList<How> How)
{
    /// <summary>The remedy that saves most; null when none that can be done saves anything.</summary>
    public Remedy? Best => Remedies.Where(remedy => remedy is { CanBe: true, Saves: > 0 }).MaxBy(remedy => remedy.Saves);
}
