using System.Globalization;

namespace Nursery.Domain.Refusals;

public sealed class StockTooLow(string lotCode, int stock, int needed)
    : Refusal(string.Create(CultureInfo.InvariantCulture, $"Lot {lotCode} has {stock} seeds in stock, {needed} needed"))
{
    public override RefusalKind Kind => RefusalKind.State;

    public override IReadOnlyDictionary<string, object?> Facts =>
        new Dictionary<string, object?> { ["stock"] = stock, ["needed"] = needed };
}
