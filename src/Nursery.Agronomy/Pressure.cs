namespace Nursery.Agronomy;

/// <summary>A pressure.</summary>
/// <param name="Kilopascals">kPa.</param>
public readonly record struct Pressure(double Kilopascals)
{
    public double Pascals => Kilopascals * 1000;

    public static Pressure FromPascals(double pascals) => new(pascals / 1000);
}
