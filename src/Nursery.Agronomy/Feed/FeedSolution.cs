namespace Nursery.Agronomy.Feed;

/// <summary>Fertilizer for a wanted strength. The law, the label and the maker's chart come first; weigh and mix with the usual protection.</summary>
/// <param name="Fertilizer">For all the water.</param>
/// <param name="PerLiterConcentrate">For each liter of what the injector draws.</param>
/// <param name="PerHundredGallons">For 100 US gallons at the plants.</param>
public sealed record FeedSolution(Mass Fertilizer, Mass PerLiterConcentrate, Mass PerHundredGallons)
{
    private const double HundredGallons = 100;

    /// <summary>grams = ppm × liters ÷ (1000 × fraction), as 1 ppm is 1 mg in a liter; the concentrate is the injector's ratio stronger. The
    /// short-cut of extension services, ounces in 100 gallons = ppm ÷ (75 × fraction), says 0.2 % less. Source: Fertilizer Calculations
    /// for Greenhouse Crops, University of Massachusetts Extension.</summary>
    /// <param name="ppm">Wanted at the plants, above 0, to 5000 ppm.</param>
    /// <param name="nutrient">Of the fertilizer, above 0, to 100 %.</param>
    /// <param name="water">At the plants, above 0, to 10,000,000 L.</param>
    /// <param name="injectorRatio">100 for 1:100; 1 without injector, to 1000.</param>
    /// <exception cref="InputOutOfRange">An input outside its range.</exception>
    public static FeedSolution Of(double ppm, Fraction nutrient, Volume water, double injectorRatio)
    {
        InputOutOfRange.Above(ppm, 0, 5000, nameof(ppm), "ppm");
        InputOutOfRange.Above(nutrient.Percent, 0, 100, "nutrientPercent", "%");
        InputOutOfRange.Above(water.Liters, 0, 10_000_000, "waterL", "L");
        InputOutOfRange.Within(injectorRatio, 1, 1000, nameof(injectorRatio), "");
        var perLiter = ppm / 1000 / nutrient.Value;
        return new FeedSolution(
            new Mass(perLiter * water.Liters), new Mass(perLiter * injectorRatio), new Mass(perLiter * Volume.FromGallons(HundredGallons).Liters));
    }
}
