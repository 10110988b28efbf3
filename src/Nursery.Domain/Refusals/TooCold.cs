using System.Globalization;

namespace Nursery.Domain.Refusals;

public sealed class TooCold(string zoneCode, decimal setpointC, string cropName, decimal cropMinC, decimal cropMaxC)
    : Refusal(string.Create(
        CultureInfo.InvariantCulture,
        $"Zone {zoneCode} is set to {setpointC:0.#} °C, too cold for {cropName}: it germinates from {cropMinC:0.#} to {cropMaxC:0.#} °C"))
{
    public string ZoneCode => zoneCode;

    public string CropName => cropName;

    public decimal SetpointC => setpointC;

    public decimal CropMinC => cropMinC;

    public decimal CropMaxC => cropMaxC;

    public override RefusalKind Kind => RefusalKind.State;

    public override IReadOnlyDictionary<string, object?> Facts => new Dictionary<string, object?>
    {
        ["setpointC"] = SetpointC,
        ["cropMinC"] = CropMinC,
        ["cropMaxC"] = CropMaxC,
    };
}
