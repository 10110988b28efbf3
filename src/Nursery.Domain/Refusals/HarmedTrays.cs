using System.Globalization;

namespace Nursery.Domain.Refusals;

/// <summary>Trays whose seed does not germinate at a setpoint, °C.</summary>
public sealed record HarmedTrays(string TraySetCode, string CropName, decimal MinC, decimal MaxC)
{
    public override string ToString() => string.Create(
        CultureInfo.InvariantCulture, $"{TraySetCode} {CropName} needs {MinC:0.#}–{MaxC:0.#} °C");
}
