namespace Nursery.Past;

/// <summary>What really happened to a batch, which nobody in the nursery knows.</summary>
/// <param name="Curve">How its variety comes up: twoPopulations or gompertz.</param>
/// <param name="FinalFraction">Seeds that came up in the end, of all seeds sown.</param>
/// <param name="MedianDay">Days from sowing until half of those were up.</param>
/// <param name="MeanHeatC">True mean media temperature on the heat.</param>
/// <param name="DampedOff">Plants dead of damping off.</param>
/// <param name="Dropped">Plants lost with a dropped tray.</param>
/// <param name="Thinned">Plants taken out by thinning.</param>
/// <param name="Delivered">Plants alive when handed over.</param>
/// <param name="TrayEffects">A factor on emergence for each tray.</param>
public sealed record BatchTruth(
    int Batch,
    string Curve,
    double FinalFraction,
    double MedianDay,
    double MeanHeatC,
    int DampedOff,
    int Dropped,
    int Thinned,
    int Delivered,
    IReadOnlyList<double> TrayEffects);
