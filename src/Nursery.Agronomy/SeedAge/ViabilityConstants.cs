namespace Nursery.Agronomy.SeedAge;

/// <summary>Constants of the improved viability equation for a species.</summary>
public sealed record ViabilityConstants
{
    /// <param name="ke">0 to 20.</param>
    /// <param name="cw">0 to 20.</param>
    /// <param name="ch">−1 to 1.</param>
    /// <param name="cq">−0.1 to 0.1.</param>
    /// <exception cref="InputOutOfRange">An input outside its range.</exception>
    public ViabilityConstants(double ke, double cw, double ch, double cq)
    {
        KE = InputOutOfRange.Within(ke, 0, 20, nameof(ke), "");
        CW = InputOutOfRange.Within(cw, 0, 20, nameof(cw), "");
        CH = InputOutOfRange.Within(ch, -1, 1, nameof(ch), "per °C");
        CQ = InputOutOfRange.Within(cq, -0.1, 0.1, nameof(cq), "per °C²");
    }

    public double KE { get; }

    public double CW { get; }

    public double CH { get; }

    public double CQ { get; }

    /// <summary>Constants of the collection of Hong, Linington &amp; Ellis 1996 and later papers, by crop name. One species may have several; here
    /// stands the one measured at several temperatures where there is one.</summary>
    public static IReadOnlyDictionary<string, (ViabilityConstants Constants, string Source)> ByCrop { get; } =
        new Dictionary<string, (ViabilityConstants, string)>(StringComparer.OrdinalIgnoreCase)
        {
            ["Okra"] = (new(6.659, 2.448, 0.0329, 0.000478), "Daniel, Kruse & Börner 2013 (universal temperature terms)"),
            ["Onion"] = (new(6.975, 3.47, 0.04, 0.000428), "Ellis & Roberts 1981"),
            ["Beet"] = (new(9.373, 5.152, 0.0372, 0.000467), "Ellis & Hong 2007"),
            ["Muskmelon"] = (new(7.299, 3.707, 0.0367, 0.000473), "Kuo 1991"),
            ["Squash"] = (new(6.913, 3.604, 0.04, 0.0004), "Hong, Linington & Ellis 1996 (Cucurbita pepo)"),
            ["Lettuce"] = (new(7.938, 5.25, 0.0329, 0.000478), "Ellis et al. 1989"),
            ["Eggplant"] = (new(5.166, 3.009, 0.094, 0.0019), "Daniel, Kruse & Börner 2011"),
            ["Bean, snap"] = (new(9.09, 4.761, 0.0329, 0.000478), "Ellis et al. 1990 (universal temperature terms)"),
            ["Corn, sweet"] = (new(8.579, 4.91, 0.0329, 0.000478), "Hong et al. 1996 (field corn; universal temperature terms)"),
        };
}
