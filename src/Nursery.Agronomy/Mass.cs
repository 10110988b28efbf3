namespace Nursery.Agronomy;

/// <summary>A mass.</summary>
/// <param name="Grams">g.</param>
public readonly record struct Mass(double Grams)
{
    /// <summary>Avoirdupois ounce, exact (NIST SP 811, B.8).</summary>
    private const double OunceGrams = 28.349523125;

    public double Ounces => Grams / OunceGrams;

    public static Mass FromOunces(double ounces) => new(ounces * OunceGrams);
}
