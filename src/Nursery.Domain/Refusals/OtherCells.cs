using System.Globalization;

namespace Nursery.Domain.Refusals;

/// <summary>Trays to be shared have the same cells.</summary>
public sealed class OtherCells(string one, int cells, string other, int otherCells) : Refusal(string.Create(
    CultureInfo.InvariantCulture, $"{one} lies in trays of {cells} cells, {other} in trays of {otherCells}"))
{
    public override RefusalKind Kind => RefusalKind.Rule;
}
