using System.Globalization;

namespace Nursery.Domain.Refusals;

/// <summary>No temperature suits all seed that would lie in one tray.</summary>
public sealed class BandsDoNotMeet(string warmer, decimal leastC, string cooler, decimal mostC) : Refusal(string.Create(
    CultureInfo.InvariantCulture, $"{warmer} germinates from {leastC:0.#} °C, {cooler} only up to {mostC:0.#} °C: no setpoint suits both"))
{
    public override RefusalKind Kind => RefusalKind.Rule;

    public string Warmer => warmer;

    public decimal LeastC => leastC;

    public string Cooler => cooler;

    public decimal MostC => mostC;

    public override IReadOnlyDictionary<string, object?> Facts => new Dictionary<string, object?>
    {
        ["leastC"] = leastC,
        ["mostC"] = mostC,
    };
}
