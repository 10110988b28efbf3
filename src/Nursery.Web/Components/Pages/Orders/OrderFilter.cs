using Nursery.Application.Orders;

namespace Nursery.Web.Components.Pages.Orders;

/// <summary>Which order lines are looked at.</summary>
public sealed record OrderFilter(string Text = "", string CropCode = "", bool OnlyOpen = false)
{
    public bool Shows(OrderLineItem line) =>
        (!OnlyOpen || OpenPlants(line) > 0)
        && (CropCode.Length == 0 || line.CropCode == CropCode)
        && (Text.Trim().Length == 0
            || new[] { line.Order, line.Customer, line.CropName, line.VarietyName, line.VarietyCode }
                .Any(words => words.Contains(Text.Trim(), StringComparison.OrdinalIgnoreCase)));

    /// <summary>Plants no batch is meant for yet.</summary>
    public static int OpenPlants(OrderLineItem line) => Math.Max(0, line.Plants - line.AllocatedPlants);
}
