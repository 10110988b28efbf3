namespace Nursery.Agronomy.Water;

/// <summary>How much water a growing mix holds at a height above the drained bottom of its cell: θ = θr + (θs − θr) ÷ (1 + (α h)^n)^(1 − 1/n).
/// Small cells hold more, as all of them lies near the bottom. Source of the approach: Milks, Fonteno &amp; Larson, J. Am. Soc. Hort.
/// Sci. 114: 48–52, 1989 (from memory); curve: van Genuchten 1980.</summary>
/// <param name="Saturated">Water when every pore is full.</param>
/// <param name="Residual">Water no plant gets.</param>
/// <param name="AlphaPerCm">1/cm.</param>
/// <param name="Power">Above 1.</param>
public sealed record WaterRetention(Fraction Saturated, Fraction Residual, double AlphaPerCm, double Power)
{
    /// <summary>Peat and perlite or vermiculite for bedding plants (from memory), so set that a cell of 4.5 cm holds 59 % water and 12 % air
    /// after drainage, as published for a bedding plant cell.</summary>
    public static WaterRetention Bedding { get; } = new(new Fraction(0.71), new Fraction(0.12), 0.55, 1.45);

    /// <summary>Water at a height above the bottom or, the same, at a suction.</summary>
    /// <param name="centimeters">0 to 10,000 cm.</param>
    /// <exception cref="InputOutOfRange">Outside that.</exception>
    public Fraction At(double centimeters)
    {
        InputOutOfRange.Within(centimeters, 0, 10_000, nameof(centimeters), "cm");
        var below = Math.Pow(1 + Math.Pow(AlphaPerCm * centimeters, Power), (1 / Power) - 1);
        return new Fraction(Residual.Value + ((Saturated.Value - Residual.Value) * below));
    }

    /// <summary>Water of a whole cell after drainage: the curve over its height.</summary>
    /// <param name="cell">Height of the mix, above 0, to 50 cm.</param>
    /// <exception cref="InputOutOfRange">Outside that.</exception>
    public Fraction AfterDrainage(Length cell)
    {
        var centimeters = InputOutOfRange.Above(cell.Meters * 100, 0, 50, "height", "cm");
        const int slices = 200;
        return new Fraction(Enumerable.Range(0, slices).Average(slice => At((slice + 0.5) * centimeters / slices).Value));
    }
}
