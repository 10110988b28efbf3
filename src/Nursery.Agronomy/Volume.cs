namespace Nursery.Agronomy;

/// <summary>A volume.</summary>
/// <param name="Liters">L.</param>
public readonly record struct Volume(double Liters)
{
    /// <summary>1 in³ = 0.016 387 064 L, exact (NIST SP 811, B.8).</summary>
    private const double CubicInchLiters = 0.016387064;
    private const double CubicInchesPerGallon = 231;
    private const double CubicInchesPerCubicFoot = 1728;
    private const double CubicInchesPerCubicYard = 46656;

    public double Milliliters => Liters * 1000;

    public double CubicMeters => Liters / 1000;

    public double CubicInches => Liters / CubicInchLiters;

    /// <summary>US gallons of 231 in³.</summary>
    public double Gallons => CubicInches / CubicInchesPerGallon;

    public double CubicFeet => CubicInches / CubicInchesPerCubicFoot;

    public double CubicYards => CubicInches / CubicInchesPerCubicYard;

    public static Volume FromMilliliters(double milliliters) => new(milliliters / 1000);

    public static Volume FromCubicInches(double cubicInches) => new(cubicInches * CubicInchLiters);

    public static Volume FromGallons(double gallons) => FromCubicInches(gallons * CubicInchesPerGallon);

    public static Volume FromCubicFeet(double cubicFeet) => FromCubicInches(cubicFeet * CubicInchesPerCubicFoot);

    public static Volume FromCubicYards(double cubicYards) => FromCubicInches(cubicYards * CubicInchesPerCubicYard);
}
