using System.Globalization;

namespace Nursery.Domain.Refusals;

/// <summary>A setpoint outside what seed lying in the zone accepts.</summary>
/// <param name="zoneCode">The zone.</param>
/// <param name="setpointC">°C asked for.</param>
/// <param name="harmed">Tray sets on those days, each with its crop and the band it accepts.</param>
public sealed class WouldHarm(string zoneCode, decimal setpointC, IReadOnlyList<HarmedTrays> harmed)
    : Refusal(string.Create(
        CultureInfo.InvariantCulture,
        $"Zone {zoneCode} cannot be set to {setpointC:0.#} °C: {string.Join("; ", harmed.Take(5).Select(trays => trays.ToString()))}{(harmed.Count > 5 ? $"; and {harmed.Count - 5} more" : "")}"))
{
    public string ZoneCode => zoneCode;

    public decimal SetpointC => setpointC;

    public IReadOnlyList<HarmedTrays> Harmed => harmed;

    public override RefusalKind Kind => RefusalKind.State;

    public override IReadOnlyDictionary<string, object?> Facts => new Dictionary<string, object?>
    {
        ["setpointC"] = setpointC,
        ["harmed"] = harmed.Select(trays => trays.TraySetCode).ToList(),
    };
}
