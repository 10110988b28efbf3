namespace Nursery.Agronomy;

/// <summary>A length or height.</summary>
/// <param name="Meters">m.</param>
public readonly record struct Length(double Meters)
{
    /// <summary>1 in = 25.4 mm, exact (NIST SP 811, B.8).</summary>
    private const double InchMm = 25.4;

    public double Millimeters => Meters * 1000;

    public double Inches => Millimeters / InchMm;

    public static Length FromMillimeters(double millimeters) => new(millimeters / 1000);

    public static Length FromInches(double inches) => new(inches * InchMm / 1000);
}
