namespace Nursery.Past;

/// <summary>The nursery a season is invented for. Days are counted from the day of loading, which is day 0; the past is negative.</summary>
/// <param name="Benches">In walking order.</param>
/// <param name="Crops">Crops in use.</param>
/// <param name="Varieties">Their varieties: code and the crop's code.</param>
/// <param name="Customers">Names to order under.</param>
/// <param name="Held">Spaces others hold.</param>
/// <param name="Workers">How many people work on the rounds, 1 or more.</param>
public sealed record PastNursery(
    IReadOnlyList<PastBench> Benches,
    IReadOnlyList<PastCrop> Crops,
    IReadOnlyList<(string Code, string Crop)> Varieties,
    IReadOnlyList<string> Customers,
    IReadOnlyList<PastHeld> Held,
    int Workers);
